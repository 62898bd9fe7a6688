import { Button } from '@/app/ui/button/button';
import { MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';
import { optionAt } from '@/lib/report/plan/plan-desk';
import { confidenceInWords, momentInWords, whereInWords } from '@/lib/report/plan/plan-words';
import type { RowLimit } from '@/lib/report/plan/row-limits';
import styles from './picture.module.css';
import type { Stage } from './stage';

/** The day before which it must be cleaned first; below it the first that the draft does not keep. */
export function Before({ limits, stage: { desk, view } }: { limits: RowLimit[]; stage: Stage }) {
  const [first] = limits;
  if (first === undefined)
    return (
      <div className={`${styles.words} ${styles.before}`}>
        <span className={styles.calm}>not within {view.request.weeks} weeks</span>
      </div>
    );
  const late = limits.find(({ state }) => state === 'late');
  return (
    <div className={`${styles.words} ${styles.before}`}>
      <span className={styles.cellName}>clean before </span>
      <b>{first.before === null ? 'overdue' : formatDay(first.before)}</b>
      <small className={late === undefined ? undefined : styles.overText}>
        {late !== undefined
          ? `■ ${late === first ? '' : 'later: '}${lateInWords(late)}`
          : first.state === 'overdue'
            ? 'as early as possible'
            : `at ${confidenceInWords(desk.input.confidence)}`}
      </small>
    </div>
  );
}

function lateInWords({ daysLate }: RowLimit): string {
  return daysLate === null ? 'not cleaned' : `${countOf(Math.ceil(daysLate), 'day')} late`;
}

type PlannedProps = { unit: number; tag: string; stage: Stage; isNarrow: boolean };

/** Its cleanings in words; on a phone each can be opened from here. */
export function Planned({ unit, tag, stage, isNarrow }: PlannedProps) {
  const { desk, board, shown } = stage;
  const spots = shown.draft.schedule[unit]!.map((option) => ({ unit, option }));
  if (isNarrow)
    return (
      <ul className={`${styles.cards} ${styles.planned}`}>
        {spots.map((spot) => (
          <li key={spot.option}>
            <span>
              {momentInWords(optionAt(desk, spot).start)}, {whereInWords(desk, spot)}
            </span>
            <Button
              weight="quiet"
              aria-expanded={board.selected?.unit === unit && board.selected.option === spot.option}
              aria-label={`Change the cleaning of ${tag} on ${momentInWords(optionAt(desk, spot).start)}`}
              onClick={() => board.select(spot)}
            >
              Change
            </Button>
          </li>
        ))}
      </ul>
    );
  const [first] = spots;
  if (first === undefined) return <div className={`${styles.words} ${styles.planned}`}>{MISSING}</div>;
  return (
    <div className={`${styles.words} ${styles.planned}`}>
      <b>{formatDay(Math.floor(optionAt(desk, first).start))}</b>
      <small>
        {whereInWords(desk, first)}
        {spots.length > 1 ? `, ${spots.length - 1} more` : ''}
      </small>
    </div>
  );
}
