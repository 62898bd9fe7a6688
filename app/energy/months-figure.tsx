import type { MonthBars } from '@/lib/report/energy/months-view';
import styles from './months.module.css';

/** Small bars month by month, one strip per quantity, each from zero; hollow where a month is incomplete. */
export function MonthsFigure({ series }: { series: MonthBars[] }) {
  return (
    <figure className={styles.figure}>
      {series.map((each) => (
        <Strip key={`${each.title} ${each.unit}`} series={each} />
      ))}
      <figcaption className={styles.caption}>
        Filled: a whole month. Hollow: incomplete, the month of today or that in which the record begins.
      </figcaption>
    </figure>
  );
}

function Strip({ series }: { series: MonthBars }) {
  return (
    <div className={styles.strip}>
      <h3>
        {series.title} <span className={styles.unit}>{series.unit}</span>
      </h3>
      <div className={styles.scroll} role="img" aria-label={series.sentence}>
        <div className={styles.bars}>
          {series.bars.map((bar) => (
            <div key={bar.month} className={styles.month}>
              <span className={styles.label}>{bar.label}</span>
              <span className={styles.well}>
                <span
                  className={bar.isComplete ? styles.bar : styles.hollow}
                  style={{ height: `${(100 * bar.height).toFixed(1)}%` }}
                />
              </span>
              <span className={styles.name}>
                {bar.name}
                {bar.isYearShown ? <span className={styles.year}>{bar.month.slice(0, 4)}</span> : null}
              </span>
            </div>
          ))}
        </div>
      </div>
    </div>
  );
}
