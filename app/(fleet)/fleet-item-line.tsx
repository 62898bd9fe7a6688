import { memo } from 'react';
import type { WindowItem } from '@/lib/report/fleet/fleet-index';
import type { FleetRow } from '@/lib/report/fleet-row';
import type { FleetView } from '@/lib/report/fleet-view';
import styles from './fleet.module.css';
import { FleetGroupHead } from './fleet-group-head';
import { FleetRowLine, placedAt } from './fleet-row-line';

type Props = {
  /** Undefined while it has not come. */
  item: WindowItem | undefined;
  index: number;
  total: number;
  view: FleetView;
  axisWidth: number;
  /** Distance from the top of the list [px]; null where rows simply follow one another. */
  top: number | null;
  height: number;
  isTabStop: boolean;
  query: string;
  onFocus: (row: FleetRow) => void;
};

/** One place of the list: the head of a group, a row, or the room for a row that is on its way. */
export const FleetItemLine = memo(function FleetItemLine(props: Props) {
  const { item, top, height, view, axisWidth } = props;
  if (item === undefined)
    return <li className={styles.coming} style={{ ...placedAt(top), height }} aria-hidden="true" />;
  if (item.kind === 'group')
    return <FleetGroupHead item={item} view={view} axisWidth={axisWidth} top={top} />;
  const { total, index, isTabStop, query, onFocus } = props;
  return (
    <FleetRowLine
      row={item.row}
      rank={item.rank}
      {...{ total, view, top, index, isTabStop, query, onFocus }}
    />
  );
});
