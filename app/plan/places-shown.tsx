import { type DaySpan, shareOf } from '@/lib/report/time-axis';
import styles from './cleaning-bar.module.css';
import { percent } from './percent';
import type { Drag } from './use-drag';

/** While a cleaning is in the hand: where the unit can be cleaned, where not, and why not where it is held. */
export function PlacesShown({ drag, span }: { drag: Drag; span: DaySpan }) {
  const { over, places } = drag;
  const at = shareOf(span, over.start);
  return (
    <>
      {places.map(({ option, start, why }) => (
        <span
          key={option}
          className={why.length === 0 ? styles.freePlace : styles.shutPlace}
          style={{ left: percent(shareOf(span, start)) }}
          data-place={why.length === 0 ? 'free' : 'shut'}
        >
          {why.length === 0 ? null : '×'}
        </span>
      ))}
      <span
        className={at > 0.6 ? `${styles.tip} ${styles.tipLeft}` : styles.tip}
        style={{ left: percent(at) }}
      >
        {over.day}, {over.where}
        {over.why.length === 0 ? '' : ` ■ ${over.why.join('; ')}`}
      </span>
    </>
  );
}
