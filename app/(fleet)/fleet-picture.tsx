'use client';

import type { CSSProperties, RefObject } from 'react';
import { useWidth } from '@/app/ui/use-width';
import type { FleetView } from '@/lib/report/fleet-view';
import { placeOutageNames, USUAL_AXIS_WIDTH } from '@/lib/report/outage-names';
import styles from './fleet.module.css';
import { axisHeight, FleetAxis } from './fleet-axis';
import { FleetList } from './fleet-list';
import { PictureDefs } from './row-picture';
import type { FleetRows } from './use-fleet-rows';
import type { LeaveFind } from './use-leave-find';

type Props = {
  view: FleetView;
  list: FleetRows;
  need: (from: number, to: number) => void;
  isFetching: boolean;
  isBySite: boolean;
  leaveFind: RefObject<LeaveFind>;
};

/** The fleet on one time axis: axis, rows, and what the marks mean. */
export function FleetPicture({ view, isBySite, ...rest }: Props) {
  const [scale, width] = useWidth<HTMLDivElement>(USUAL_AXIS_WIDTH);
  // Under the heads of sites each site names its own outages.
  const names = isBySite && view.sites.length > 1 ? [] : placeOutageNames(view.outages, view.now, width);
  return (
    <figure className={styles.board} style={{ '--axis-height': axisHeight(names) } as CSSProperties}>
      <PictureDefs />
      <div className={styles.axisHead}>
        <FleetAxis view={view} names={names} width={width} scale={scale} />
      </div>
      <FleetList view={view} axisWidth={width} {...rest} />
      <figcaption className={styles.caption}>
        Fouling as share of its allowance, {view.span}. ▲ recorded cleaning · △ planned one · ⤵ probable one,
        waiting for an answer · ≠ data suspect · dotted: the limit · bar on it: clean-by day from P10 to P90,
        tick at P50, projected · dashed line: few usable readings · hatched: no data.{' '}
        <span className="screen-only">
          Keys: <kbd>↑</kbd> <kbd>↓</kbd> move, <kbd>Enter</kbd> opens, <kbd>/</kbd> finds, <kbd>Esc</kbd>{' '}
          clears.
        </span>
      </figcaption>
    </figure>
  );
}
