import type { FleetView } from '@/lib/report/fleet-view';
import { currencySign } from '@/lib/report/format/figure';
import styles from './fleet.module.css';

const percent = (share: number) => `${(share * 100).toFixed(2)}%`;
/** A name takes about this share of the axis per letter, at the width of a laptop [-]. */
const SHARE_PER_LETTER = 0.0085;
const GAP_LETTERS = 3;
const MOST_LANES = 4;

/** The shared axis above all rows; stays in sight while they scroll. */
export function FleetAxis({ view }: { view: FleetView }) {
  const names = placeNames(view);
  return (
    <div className={`${styles.axis} ${styles.columns}`} aria-hidden="true">
      <span className={styles.corner}>Unit</span>
      <div className={styles.scale}>
        <span className={styles.today} style={{ left: percent(view.now) }}>
          today
        </span>
        {names.map((name) => (
          <span
            key={`${name.at}${name.text}`}
            className={styles.outageName}
            style={{ left: percent(name.at), top: `${name.lane * LANE_REM}rem` }}
          >
            {name.text}
          </span>
        ))}
        {view.months.map((month) => (
          <span
            key={month.at}
            className={month.isYear ? `${styles.month} ${styles.year}` : styles.month}
            style={{ left: percent(month.at) }}
          >
            {month.label}
          </span>
        ))}
      </div>
      <span className={styles.headNumber}>used</span>
      <span className={styles.head}>clean by, projected</span>
      <span className={styles.headNumber}>
        lost duty<small>{view.lostUnit.label}</small>
      </span>
      <span className={styles.headNumber}>
        cost<small>{view.currency === null ? 'per day' : `${currencySign(view.currency)}/day`}</small>
      </span>
    </div>
  );
}

/** Height of one lane of names, and of the months below them [rem]. */
const LANE_REM = 0.9;
const MONTHS_REM = 1.5;

/** How high the axis is for its names. */
export function axisHeight(view: FleetView): string {
  const lanes = Math.max(1, ...placeNames(view).map((name) => name.lane + 1));
  return `${lanes * LANE_REM + MONTHS_REM}rem`;
}

/** Outage names at the left edge of their bands, in as many lanes as keep them apart. */
function placeNames(view: FleetView): { at: number; lane: number; text: string }[] {
  const todayEnd = view.now + 4 * SHARE_PER_LETTER;
  const taken = Array.from({ length: MOST_LANES }, () => 0);
  const placed = [];
  for (const { from, name, site } of view.outages) {
    const text = view.sites.length > 1 ? `${name} · ${site}` : name;
    const end = from + (text.length + GAP_LETTERS) * SHARE_PER_LETTER;
    const meetsToday = from < todayEnd && end > view.now - 3 * SHARE_PER_LETTER;
    const lane = taken.findIndex((until, at) => from >= until && !(at === 0 && meetsToday));
    if (lane === -1) continue;
    taken[lane] = end;
    placed.push({ at: from, lane, text });
  }
  return placed;
}
