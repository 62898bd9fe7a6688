import { formatNumber } from '@/lib/report/format/figure';
import { countOf } from '@/lib/report/format/words';
import type { CrewLoad } from '@/lib/report/plan/crew-load';
import { percent } from './percent';
import styles from './picture.module.css';

/** Hours of work used of those there are, week by week and outage by outage, on the axis of the rows. */
export function CrewStrip({ loads, now }: { loads: CrewLoad[]; now: number }) {
  const over = loads.filter(({ isOver }) => isOver);
  const used = loads.reduce((sum, load) => sum + load.used, 0);
  return (
    <div className={`${styles.crew} ${styles.columns}`}>
      <span>Crew hours</span>
      <div className={styles.crewScale} role="img" aria-label={inWords(loads)}>
        {loads.map((load) => (
          <div
            key={`${load.kind}${load.name}${load.from}`}
            className={`${styles.pool} ${load.kind === 'outage' ? styles.outagePool : ''} ${load.isOver ? styles.overPool : ''}`}
            style={{ left: percent(load.from), width: percent(load.to - load.from) }}
            title={`${load.name}: ${load.words}`}
          >
            <div style={{ height: load.hours === null && load.used > 0 ? '100%' : percent(load.share) }} />
          </div>
        ))}
        <div className={styles.now} style={{ left: percent(now) }} />
      </div>
      <span className={styles.crewWords}>
        {formatNumber(used, 0)} h in all
        {over.length === 0 ? null : (
          <b className={styles.overText}>
            {' '}
            ■ over in {over.length === 1 ? over[0]!.name : countOf(over.length, 'place')}
          </b>
        )}
      </span>
    </div>
  );
}

function inWords(loads: CrewLoad[]): string {
  const busy = loads.filter(({ used }) => used > 0).map(({ name, words }) => `${name} ${words}`);
  return busy.length === 0 ? 'Crew hours: none used' : `Crew hours: ${busy.join('; ')}`;
}
