'use client';

import { type CSSProperties, useMemo } from 'react';
import { axisHeight } from '@/app/(fleet)/fleet-axis';
import { PictureDefs } from '@/app/(fleet)/row-picture';
import { useMedia } from '@/app/(fleet)/use-media';
import { Button } from '@/app/ui/button/button';
import { useWidth } from '@/app/ui/use-width';
import { placeOutageNames, USUAL_AXIS_WIDTH } from '@/lib/report/outage-names';
import { crewLoad } from '@/lib/report/plan/crew-load';
import { firstDay } from '@/lib/report/plan/row-limits';
import { CrewStrip } from './crew-strip';
import { DraftBar } from './draft-bar';
import styles from './picture.module.css';
import { PlanAxis } from './plan-axis';
import { PlanRowLine } from './plan-row-line';
import type { Stage } from './stage';

const NARROW = '(max-width: 760px)';

/** What the keys do on a cleaning's bar. */
function Keys() {
  return (
    <span className="screen-only" id="plan-keys">
      Keys on a cleaning: <kbd>←</kbd> <kbd>→</kbd> move it to the place before or after, <kbd>L</kbd> locks,{' '}
      <kbd>Delete</kbd> takes it out, <kbd>Enter</kbd> opens what is known of it, <kbd>Esc</kbd> closes.
    </span>
  );
}

/** Begins and ends adding: meanwhile a click on a row adds a cleaning there. */
function AddToggle({ stage: { adding } }: { stage: Stage }) {
  return (
    <Button weight="quiet" onClick={() => adding.set(!adding.isOn)}>
      {adding.isOn ? 'Stop adding' : 'Add by click'}
    </Button>
  );
}

/** The plan on the fleet's time axis: a row per unit, its limit and its cleanings, and the crew they take. */
export function PlanPicture({ stage }: { stage: Stage }) {
  const { view, desk, board, shown } = stage;
  const [scale, width] = useWidth<HTMLDivElement>(USUAL_AXIS_WIDTH);
  const isNarrow = useMedia(NARROW);
  const loads = useMemo(() => crewLoad(desk, shown.draft, view.span), [desk, shown.draft, view.span]);
  const names = placeOutageNames(view.outages, view.frame.now, width);
  // Rows stay where they are while cleanings move: the plan it began as orders them.
  const began = board.base?.draft ?? null;
  const rows = useMemo(() => {
    const day = (unit: number) => (began === null ? 0 : firstDay(desk, began, unit));
    return view.rows.toSorted((a, b) => day(a.unit) - day(b.unit) || a.tag.localeCompare(b.tag));
  }, [view.rows, desk, began]);
  return (
    <figure
      className={styles.board}
      style={{ '--axis-height': axisHeight(names) } as CSSProperties}
      aria-label={`Plan of ${view.site} on a time axis, ${view.spanWords}`}
    >
      <PictureDefs />
      <div className={styles.head}>
        <DraftBar stage={stage}>{isNarrow ? null : <AddToggle stage={stage} />}</DraftBar>
        <PlanAxis view={view} names={names} width={width} scale={scale} />
        <CrewStrip loads={loads} now={view.frame.now} />
      </div>
      <ol className={styles.list}>
        {rows.map((row) => (
          <PlanRowLine key={row.tag} row={row} stage={stage} isNarrow={isNarrow} />
        ))}
      </ol>
      <figcaption className={styles.caption}>
        {isNarrow ? null : (
          <>
            ▮ planned cleaning, drag it or use the keys; + adds one where it costs least, a click in the row
            of an opened one where it is clicked · ◂ clean before, at the chosen confidence · grey band:
            fouling as projected · bar on the dotted limit: clean-by day from P10 to P90 · shaded: outages.{' '}
          </>
        )}
        {isNarrow ? null : <Keys />}
      </figcaption>
    </figure>
  );
}
