import { PageHeader } from '@/app/ui/page-header/page-header';
import { PrintButton } from '@/app/units/[tag]/spot-check/print-button';
import type { Review, ReviewQuery } from '@/lib/contract/review';
import { formatDay } from '@/lib/report/format/time';
import { reviewGroups } from '@/lib/report/review/review-groups';
import { countsInWords, isCleaningNamed, lastMarkInWords } from '@/lib/report/review/review-words';
import { KeepPlace } from './keep-place';
import styles from './review.module.css';
import { NothingChanged, NothingYet } from './review-empty';
import { ReviewRest } from './review-rest';
import { ReviewToolbar } from './review-toolbar';
import { ReviewUnit } from './review-unit';

type Props = {
  review: Review;
  query: ReviewQuery;
  person: string;
  /** The fleet is too large for all sites at once. */
  isOneSiteOnly: boolean;
};

const PEOPLE = 'people';

/** The Monday page: what changed since a day, what needs somebody this week first, and what did not change counted. */
export function ReviewScreen({ review, query, person, isOneSiteOnly }: Props) {
  const { since, today, counts, assignees, units } = review;
  if (counts.units === 0 || today === null) return <NothingYet hasUnits={counts.units > 0} />;
  const { main, rest } = countsInWords(review);
  const isMixed = units.some(({ before }) => !before.isAfterwards);
  return (
    <>
      <PageHeader
        title="Weekly review"
        context={`${formatDay(since)} to ${formatDay(today)}${query.site === undefined ? '' : ` · ${query.site}`}`}
        actions={<PrintButton />}
      >
        <p>
          <strong>{main}</strong>; {rest}.
        </p>
        {isOneSiteOnly ? <p>A fleet of this size is reviewed site by site.</p> : null}
      </PageHeader>
      <ReviewToolbar {...{ review, query, person, isOneSiteOnly }} />
      {review.notices.map((notice) => (
        <p key={notice} className={styles.notice}>
          {notice}
        </p>
      ))}
      <datalist id={PEOPLE}>
        {assignees.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <KeepPlace {...lastMarkInWords(review)}>
        {units.length === 0 ? <NothingChanged review={review} query={query} /> : null}
        {reviewGroups(review).map(({ name, title, units: group }) => (
          <section key={name} className={`${styles.group} ${styles[name]}`} aria-labelledby={`${name}-title`}>
            <h2 id={`${name}-title`}>
              {title} <span className={styles.count}>{group.length}</span>
            </h2>
            <ul className={styles.units}>
              {group.map((unit) => (
                <ReviewUnit key={unit.tag} unit={unit} peopleId={PEOPLE} isMixed={isMixed} />
              ))}
            </ul>
          </section>
        ))}
      </KeepPlace>
      {isCleaningNamed(review) ? <Caution /> : null}
      <ReviewRest review={review} />
    </>
  );
}

function Caution() {
  return (
    <p className={styles.caution}>
      <strong>Opening, draining or chemically cleaning equipment can kill.</strong> Isolate, depressurise,
      drain, cool, and verify before opening; check that the chemical suits the materials and what is left
      inside. Follow local codes, the maker’s instructions and licensed practice. This list informs a
      decision; it replaces no inspection.
    </p>
  );
}
