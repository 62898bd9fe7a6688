import type { RefObject } from 'react';
import type { OutageName } from '@/lib/report/outage-names';
import type { PlanView } from '@/lib/report/plan/plan-view';
import { percent } from './percent';
import styles from './picture.module.css';

/** Height of one lane of names [rem]. */
const LANE_REM = 0.9;
/** A month needs so much to be named [px]. */
const NAMES_NEED_PX = 28;

type Props = { view: PlanView; names: OutageName[]; width: number; scale: RefObject<HTMLDivElement | null> };

/** The shared axis above all rows: months, today, outages by name. */
export function PlanAxis({ view, names, width, scale }: Props) {
  const isTight = width < NAMES_NEED_PX * view.months.length;
  return (
    <div className={`${styles.axis} ${styles.columns}`} aria-hidden="true">
      <span>Unit</span>
      <div className={styles.scale} ref={scale}>
        <span className={styles.today} style={{ left: percent(view.frame.now) }}>
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
      <span>clean before</span>
      <span>planned</span>
    </div>
  );
}
