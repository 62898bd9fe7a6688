import Link from 'next/link';
import { Button } from '@/app/ui/button/button';
import { NOBODY, type Review, type ReviewQuery } from '@/lib/contract/review';
import { reviewHref } from '@/lib/report/review/review-address';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import styles from './toolbar.module.css';

const WEEKS = [1, 2, 4, 13] as const;
const DAYS_PER_WEEK = 7;

type Props = { review: Review; query: ReviewQuery; person: string; isOneSiteOnly: boolean };

/** Since when, where, which lines; and who is looking. */
export function ReviewToolbar({ review, query, person, isOneSiteOnly }: Props) {
  const { since, today, sites, assignees } = review;
  return (
    <div className={`${styles.bar} screen-only`}>
      <search aria-label="Which changes">
        <form className={styles.filters} method="get" key={JSON.stringify(query)}>
          <label>
            Since
            <input type="date" name="since" defaultValue={since} max={today ?? undefined} required />
          </label>
          {today === null ? null : <Weeks query={query} since={since} today={today} />}
          {sites.length < 2 ? null : (
            <label>
              Site
              <select name="site" defaultValue={query.site ?? ''}>
                {isOneSiteOnly ? null : <option value="">all</option>}
                {sites.map((site) => (
                  <option key={site}>{site}</option>
                ))}
              </select>
            </label>
          )}
          <label>
            Lines
            <select name="show" defaultValue={query.show ?? 'all'}>
              <option value="all">all</option>
              <option value="unseen">not seen yet</option>
            </select>
          </label>
          <label>
            Assigned to
            <select name="assigned" defaultValue={query.assigned ?? ''}>
              <option value="">anyone or nobody</option>
              <option value={NOBODY}>nobody</option>
              {assignees.map((name) => (
                <option key={name}>{name}</option>
              ))}
            </select>
          </label>
          <Button type="submit">Show</Button>
        </form>
      </search>
      <p className={styles.name}>Marks are made as {person}.</p>
    </div>
  );
}

function Weeks({ query, since, today }: { query: ReviewQuery; since: string; today: string }) {
  return (
    <nav className={styles.weeks} aria-label="Look back">
      {WEEKS.map((weeks) => {
        const day = isoDay(dayNumber(today) - weeks * DAYS_PER_WEEK);
        return (
          <Link
            key={weeks}
            href={reviewHref(query, { since: day })}
            aria-current={day === since ? 'true' : undefined}
          >
            {weeks === 1 ? '1 week' : `${weeks} weeks`}
          </Link>
        );
      })}
    </nav>
  );
}
