import type { Said } from '@/lib/contract/review';
import { formatDay } from '@/lib/report/format/time';
import { usedText } from '@/lib/report/review/statement-words';
import styles from './unit.module.css';

/** Share at the right end [-], so that a limit that has been passed can be seen to be. */
const FULL = 1.25;
const WIDTH = 160;
const HEIGHT = 16;
const MIDDLE = HEIGHT / 2;

/** Share of the allowance used then (ring) and now (dot, with its uncertainty), on the way to the limit. */
export function AllowanceMove({ before, now }: { before: Said; now: Said }) {
  if (now.allowanceUsed === null) return null;
  const words = `${usedText(now, 'si')} used, ${usedText(before, 'si')} on ${formatDay(before.day, { year: false })}`;
  const spread = now.allowanceUsedUncertainty ?? 0;
  return (
    <div className={styles.move}>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
        <line className={styles.way} x1={0} x2={WIDTH} y1={MIDDLE} y2={MIDDLE} />
        <line className={styles.limit} x1={at(1)} x2={at(1)} y1={0} y2={HEIGHT} />
        <line
          className={styles.spread}
          x1={at(now.allowanceUsed - spread)}
          x2={at(now.allowanceUsed + spread)}
          y1={MIDDLE}
          y2={MIDDLE}
        />
        {before.allowanceUsed === null ? null : (
          <circle className={styles.before} cx={at(before.allowanceUsed)} cy={MIDDLE} r={4} />
        )}
        <circle className={styles.now} cx={at(now.allowanceUsed)} cy={MIDDLE} r={4} />
      </svg>
      <span className={styles.used}>{words}</span>
    </div>
  );
}

function at(share: number): number {
  return (WIDTH * Math.min(FULL, Math.max(0, share))) / FULL;
}
