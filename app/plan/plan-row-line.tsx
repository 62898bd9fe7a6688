import Link from 'next/link';
import { type CSSProperties, memo } from 'react';
import { RowPicture } from '@/app/(fleet)/row-picture';
import { Button } from '@/app/ui/button/button';
import { optionAt } from '@/lib/report/plan/plan-desk';
import type { PlanRow } from '@/lib/report/plan/plan-view';
import { type RowLimit, rowLimits } from '@/lib/report/plan/row-limits';
import { shareOf } from '@/lib/report/time-axis';
import { AddSpot } from './add-spot';
import { CleaningBar } from './cleaning-bar';
import { CleaningPanel } from './cleaning-panel';
import { percent } from './percent';
import styles from './picture.module.css';
import { PlacesShown } from './places-shown';
import { Before, Planned } from './row-words';
import type { Stage } from './stage';

const Picture = memo(RowPicture);

type Props = { row: PlanRow; stage: Stage; isNarrow: boolean };

/** One unit: its fouling to come, the day before which it must be cleaned, and its cleanings. */
function Line({ row, stage, isNarrow }: Props) {
  const { unit, tag, service } = row;
  const { view, desk, board, moves, dragging, shown, adding } = stage;
  // Before there is a plan no limit is missed: it is only to come.
  const limits = rowLimits(desk, shown.draft, unit).map((limit) =>
    board.base === null && limit.state === 'late' ? { ...limit, state: 'met' as const } : limit,
  );
  const { selected } = board;
  const drag = dragging.drag?.spot.unit === unit ? dragging.drag : null;
  return (
    <li id={`row-${tag}`} className={styles.item}>
      <div className={`${styles.row} ${styles.columns}`}>
        <div className={styles.name}>
          <Link
            className={styles.tag}
            href={`/units/${encodeURIComponent(tag)}`}
            prefetch={false}
            data-row={unit}
          >
            {tag}
          </Link>
          <span className={styles.service}>{service}</span>
        </div>
        {isNarrow ? null : (
          <div className={drag === null ? styles.picture : `${styles.picture} ${styles.inUse}`}>
            {view.outages.map((outage) => (
              <div
                key={outage.words}
                className={styles.outage}
                style={{ left: percent(outage.from), width: percent(outage.to - outage.from) }}
                title={outage.words}
              />
            ))}
            <Projection row={row} stage={stage} />
            {row.doubts === null ? null : (
              <div className={styles.doubts}>
                <Picture row={row.doubts} view={view.frame} />
              </div>
            )}
            {limits.map((limit) => (
              <LimitMark key={limit.day} limit={limit} at={shareOf(view.span, limit.day)} />
            ))}
            {adding.isOn || selected?.unit === unit ? <AddSpot stage={stage} unit={unit} tag={tag} /> : null}
            {drag === null ? null : <PlacesShown drag={drag} span={view.span} />}
            {board.draft.schedule[unit]!.map((option, nth) => (
              <CleaningBar
                // biome-ignore lint/suspicious/noArrayIndexKey: pointer and focus hang on the button while its cleaning moves
                key={nth}
                stage={stage}
                spot={{ unit, option }}
                isClashing={shown.clashing[unit]!.includes(option)}
              />
            ))}
          </div>
        )}
        <Before limits={limits} stage={stage} />
        <Planned unit={unit} tag={tag} stage={stage} isNarrow={isNarrow} />
        <Button weight="quiet" onClick={() => moves.add(unit)} aria-label={`Add a cleaning of ${tag}`}>
          +
        </Button>
      </div>
      {selected?.unit === unit ? <CleaningPanel stage={stage} spot={selected} /> : null}
    </li>
  );
}

/** While a cleaning is in the hand, only the rows it changes are drawn anew: there may be hundreds. */
export const PlanRowLine = memo(Line, isDrawnAlready);

function isDrawnAlready(before: Props, now: Props): boolean {
  const { unit } = now.row;
  if (before.row !== now.row || before.isNarrow !== now.isNarrow) return false;
  const [old, next] = [before.stage, now.stage];
  const isInHand = [old, next].some(({ dragging }) => dragging.drag?.spot.unit === unit);
  const isOpened = [old, next].some(({ board }) => board.selected?.unit === unit);
  if (isInHand || (isOpened && old.board !== next.board)) return false;
  return (
    old.view === next.view &&
    old.desk === next.desk &&
    old.adding.isOn === next.adding.isOn &&
    old.board.base === next.board.base &&
    old.board.draft.schedule[unit] === next.board.draft.schedule[unit] &&
    old.board.draft.locked[unit] === next.board.draft.locked[unit] &&
    old.shown.draft.schedule[unit] === next.shown.draft.schedule[unit] &&
    String(old.shown.clashing[unit]) === String(next.shown.clashing[unit])
  );
}

/** The fouling to come, faded from the first cleaning on: that makes the rest of it moot. */
function Projection({ row, stage: { view, desk, shown } }: { row: PlanRow; stage: Stage }) {
  const option = shown.draft.schedule[row.unit]![0];
  const from =
    option === undefined ? 1 : shareOf(view.span, optionAt(desk, { unit: row.unit, option }).start);
  return (
    <div className={styles.projection} style={{ '--moot': percent(from) } as CSSProperties}>
      <Picture row={row.picture} view={view.frame} />
    </div>
  );
}

function LimitMark({ limit, at }: { limit: RowLimit; at: number }) {
  return (
    <svg
      className={`${styles.limit} ${styles[limit.state]}`}
      style={{ left: percent(at) }}
      aria-hidden="true"
    >
      <title>{limit.words}</title>
      <line x1="8" x2="8" y1="0" y2="100%" />
      <path d="M7 2V12L0 7Z" />
    </svg>
  );
}
