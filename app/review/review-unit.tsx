import Link from 'next/link';
import { StateMark } from '@/app/ui/state-mark/state-mark';
import type { ReviewUnit as Unit } from '@/lib/contract/review';
import { formatDay } from '@/lib/report/format/time';
import { cleanByInShort } from '@/lib/report/review/review-words';
import { unitPath } from '@/lib/report/unit/unit-address';
import { AllowanceMove } from './allowance-move';
import { MarkControls, MarksMade } from './line-marks';
import styles from './unit.module.css';

type Props = { unit: Unit; peopleId: string; isMixed: boolean };

/** One unit: how it stood and stands, and what changed, each line with what to do and what people did. */
export function ReviewUnit({ unit, peopleId, isMixed }: Props) {
  const { tag, service, site, before, now, lines } = unit;
  return (
    <li className={styles.unit}>
      <div className={styles.who}>
        <h3>
          <Link href={unitPath(tag)}>{tag}</Link>
        </h3>
        <p className={styles.service}>{[service, site].filter((part) => part !== null).join(' · ')}</p>
      </div>
      <div className={styles.how}>
        <p className={styles.states}>
          {before.state === now.state ? null : (
            <>
              <StateMark state={before.state} /> <span aria-hidden="true">→</span>
              <span className="unseen">, now </span>{' '}
            </>
          )}
          <StateMark state={now.state} />
        </p>
        <AllowanceMove before={before} now={now} />
        <p className={styles.cleanBy}>
          {cleanByInShort(now)}
          {isMixed && before.isAfterwards
            ? `; ${formatDay(before.day, { year: false })} worked out afterwards`
            : ''}
        </p>
      </div>
      <ul className={styles.lines}>
        {lines.map((line) => (
          <li key={line.key} className={styles.line}>
            <div className={styles.words}>
              <p>
                {line.text}{' '}
                <Link className={`${styles.look} screen-only`} href={line.href}>
                  Look at it<span className="unseen"> on the page of {tag}</span>
                </Link>
              </p>
              <p className={styles.advice}>{line.advice}</p>
              <MarksMade line={line} />
            </div>
            <MarkControls tag={tag} line={line} peopleId={peopleId} />
          </li>
        ))}
      </ul>
    </li>
  );
}
