import type { ErrorPile, ErrorRow } from '@/lib/report/record/error-picture';
import type { RecordView } from '@/lib/report/record/record-view';
import { HeldBar } from './held-bar';
import styles from './record.module.css';

/** Height of a row of piles [px], and the largest a single mark is drawn. */
const HEIGHT = 84;
const LARGEST_MARK = 9;
/** Below this a mark is no longer a mark, and piles are drawn as bars. */
const SMALLEST_MARK = 3;

const percent = (share: number) => `${(100 * share).toFixed(2)}%`;

/** For each share of life, where the projections landed about the day that came; below one scale for all. */
export function ErrorFigure({ view }: { view: RecordView }) {
  const { picture, byLife } = view;
  const mark = Math.min(LARGEST_MARK, (HEIGHT - 14) / picture.highest);
  return (
    <figure className={styles.figure}>
      {picture.rows.map((row, index) => {
        const summary = byLife[index]!;
        return (
          <div key={summary.name} className={styles.row}>
            <div className={styles.rowHead}>
              <h3>{summary.name}</h3>
              <p>
                held {summary.held}
                <HeldBar bar={summary.bar} aim={view.aim} />
              </p>
              <p>
                half within{' '}
                {view.scale === 'days' ? summary.errorDays : `${summary.errorShare} of the time left`}
              </p>
            </div>
            <Piles row={row} mark={mark} label={sentenceOf(view, index)} />
          </div>
        );
      })}
      <div className={styles.axis} aria-hidden="true">
        <div className={styles.scale}>
          {picture.ticks.map(({ at, value }) => (
            <span key={at} style={{ left: percent(at) }}>
              {tickText(value, view.scale)}
            </span>
          ))}
        </div>
      </div>
      <figcaption className={styles.caption}>
        <span className={styles.dot} /> within its band · <span className={styles.ring} /> outside it · tick
        above: the middle one · left: it came later than projected; right: it came sooner, the projection was
        too late · small bar: share held with what chance allows, line at the aim of{' '}
        {Math.round(100 * view.aim)} %
      </figcaption>
    </figure>
  );
}

function Piles({ row, mark, label }: { row: ErrorRow; mark: number; label: string }) {
  return (
    <div className={styles.piles}>
      <svg className={styles.plot} height={HEIGHT} role="img" aria-label={label}>
        <title>{label}</title>
        <line className={styles.zero} x1="50%" x2="50%" y1="0" y2={HEIGHT} />
        <line className={styles.base} x1="0" x2="100%" y1={HEIGHT - 0.5} y2={HEIGHT - 0.5} />
        {row.piles.map((pile) => (
          <Pile key={pile.at} pile={pile} mark={mark} />
        ))}
        {row.middle === null ? null : (
          <line className={styles.middle} x1={percent(row.middle)} x2={percent(row.middle)} y1="0" y2="9" />
        )}
      </svg>
      {row.beyondEarly === 0 ? null : <span className={styles.beyondEarly}>‹ {row.beyondEarly} more</span>}
      {row.beyondLate === 0 ? null : <span className={styles.beyondLate}>{row.beyondLate} more ›</span>}
    </div>
  );
}

/** Marks one above the other, those outside their band on top; bars where they are too many. */
function Pile({ pile, mark }: { pile: ErrorPile; mark: number }) {
  const at = percent(pile.at);
  if (mark < SMALLEST_MARK) {
    const held = pile.held * mark;
    const missed = pile.missed * mark;
    return (
      <>
        <line className={styles.heldPile} x1={at} x2={at} y1={HEIGHT - held} y2={HEIGHT} />
        <line className={styles.missedPile} x1={at} x2={at} y1={HEIGHT - held - missed} y2={HEIGHT - held} />
      </>
    );
  }
  return Array.from({ length: pile.held + pile.missed }, (_, place) => (
    <circle
      // biome-ignore lint/suspicious/noArrayIndexKey: marks of a pile are alike
      key={place}
      className={place < pile.held ? styles.heldMark : styles.missedMark}
      cx={at}
      cy={HEIGHT - 1 - mark * (place + 0.5)}
      r={mark * 0.38}
    />
  ));
}

function tickText(value: number, scale: RecordView['scale']): string {
  if (value === 0) return 'the day';
  const size = scale === 'days' ? `${Math.abs(value)} days` : `${Math.round(100 * Math.abs(value))} %`;
  return `${size} too ${value < 0 ? 'early' : 'late'}`;
}

function sentenceOf({ byLife, scale }: RecordView, index: number): string {
  const row = byLife[index]!;
  const within = scale === 'days' ? row.errorDays : `${row.errorShare} of the time left`;
  return `${row.name}: ${row.count} past projections, held ${row.held}; half within ${within}; ${row.tooEarly} too early, ${row.tooLate} too late, ${row.noDay} without a day.`;
}
