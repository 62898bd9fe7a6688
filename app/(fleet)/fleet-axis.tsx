import type { RefObject } from 'react';
import type { FleetView } from '@/lib/report/fleet-view';
import { currencySign } from '@/lib/report/format/figure';
import type { OutageName } from '@/lib/report/outage-names';
import styles from './fleet.module.css';

const percent = (share: number) => `${(share * 100).toFixed(2)}%`;
/** Height of one lane of names, and of the months below them [rem]. */
const LANE_REM = 0.9;
const MONTHS_REM = 1.5;

/** A month needs so much to be named [px]. */
const NAMES_NEED_PX = 28;

type Props = { view: FleetView; names: OutageName[]; width: number; scale: RefObject<HTMLDivElement | null> };

/** The shared axis above all rows; stays in sight while they scroll. */
export function FleetAxis({ view, names, width, scale }: Props) {
  const isTight = width < NAMES_NEED_PX * view.months.length;
  return (
    <div className={`${styles.axis} ${styles.columns}`} aria-hidden="true">
      <span className={styles.corner}>Unit</span>
      <div className={styles.scale} ref={scale}>
        <span className={styles.today} style={{ left: percent(view.now) }}>
          today
        </span>
        {names.map((name) => (
          <span
            key={`${name.at}${name.text}`}
            className={name.endsThere ? `${styles.outageName} ${styles.endsThere}` : styles.outageName}
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
            {isTight && !month.isQuarter ? '' : month.label}
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

/** How high the axis is for its names. */
export function axisHeight(names: OutageName[]): string {
  const lanes = Math.max(1, ...names.map((name) => name.lane + 1));
  return `${lanes * LANE_REM + MONTHS_REM}rem`;
}
