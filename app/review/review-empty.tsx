import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { Review, ReviewQuery } from '@/lib/contract/review';
import { formatDay } from '@/lib/report/format/time';
import { reviewHref } from '@/lib/report/review/review-address';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';

const DAYS_PER_WEEK = 7;

/** Before the first unit, or before the first analysed reading. */
export function NothingYet({ hasUnits }: { hasUnits: boolean }) {
  return (
    <>
      <PageHeader title="Weekly review" />
      <Empty
        title={hasUnits ? 'No readings yet' : 'No units yet'}
        actions={
          <ButtonLink href={hasUnits ? '/import' : '/new-unit'} weight="primary">
            {hasUnits ? 'Import readings' : 'Add a unit'}
          </ButtonLink>
        }
      >
        <p>
          The review lists what changed since a day: units near or over their limit, clean-by days that moved,
          data that got worse, cleanings. It needs {hasUnits ? 'readings' : 'a unit with readings'} to begin.
        </p>
      </Empty>
    </>
  );
}

/** Nothing to list: because nothing changed, or because of the filter. */
export function NothingChanged({ review, query }: { review: Review; query: ReviewQuery }) {
  const { counts, since } = review;
  if (counts.units - counts.unchanged - review.unchanged.notAnalysed.length > 0) {
    return (
      <Empty
        title="No line passes the filter"
        actions={
          <ButtonLink href={reviewHref({ since: query.since, site: query.site })}>Show all lines</ButtonLink>
        }
      >
        <p>There are changes since {formatDay(since)}, but none of them is of this kind.</p>
      </Empty>
    );
  }
  const earlier = isoDay(dayNumber(since) - DAYS_PER_WEEK);
  return (
    <Empty
      title={`Nothing changed since ${formatDay(since)}`}
      actions={
        <ButtonLink href={reviewHref(query, { since: earlier })}>
          {`Look back to ${formatDay(earlier)}`}
        </ButtonLink>
      }
    >
      <p>
        No unit came near or over its limit, no clean-by day moved by more than its uncertainty, no data got
        worse, and nothing was cleaned.
      </p>
    </Empty>
  );
}
