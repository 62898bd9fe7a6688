import Link from 'next/link';
import type { Review } from '@/lib/contract/review';
import { REVIEW_RULES } from '@/lib/report/review/review-words';
import { unitPath } from '@/lib/report/unit/unit-address';
import styles from './review.module.css';

/** What did not change: counted, and only what stays a worry named. */
export function ReviewRest({ review }: { review: Review }) {
  const { counts, unchanged } = review;
  const worries = [
    { words: 'still over a limit', tags: unchanged.overLimit },
    { words: 'still near a limit', tags: unchanged.nearLimit },
    { words: 'still without data', tags: unchanged.noData },
    { words: 'with a probable cleaning nobody has answered', tags: unchanged.unanswered },
    { words: 'not analysed yet', tags: unchanged.notAnalysed },
  ].filter(({ tags }) => tags.length > 0);
  return (
    <section className={styles.rest} aria-labelledby="rest-title">
      <h2 id="rest-title">
        Without a change <span className={styles.count}>{counts.unchanged}</span>
      </h2>
      {worries.map(({ words, tags }) => (
        <p key={words}>
          <strong>
            {tags.length} {words}
          </strong>
          :{' '}
          {tags.map((tag, index) => (
            <span key={tag}>
              {index === 0 ? '' : ', '}
              <Link href={unitPath(tag)}>{tag}</Link>
            </span>
          ))}
        </p>
      ))}
      <details className="screen-only">
        <summary>How lines are chosen</summary>
        <dl className={styles.rules}>
          {REVIEW_RULES.map(({ name, rule }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{rule}</dd>
            </div>
          ))}
        </dl>
      </details>
    </section>
  );
}
