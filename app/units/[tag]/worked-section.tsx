import { ButtonLink } from '@/app/ui/button/button';
import { Section } from '@/app/ui/section/section';
import type { WorkedView } from '@/lib/report/worked/worked-view';
import styles from './worked.module.css';
import { ReadingTable, SuspectTable, WorkedStepLines } from './worked-parts';

type Props = { worked: WorkedView | null; openHref: string; closeHref: string; spotCheckHref: string };

/** Every formula behind the figures with one reading's numbers in it, in the reader's units. */
export function WorkedSection({ worked, openHref, closeHref, spotCheckHref }: Props) {
  if (worked === null) {
    return (
      <div className="screen-only">
        <Section
          id="how"
          title="How was this worked out?"
          lead={
            <p>
              Every formula, with the figures of one reading put in: from flows and temperatures to the
              clean-by date. Click a point in a chart to work out that reading.
            </p>
          }
        >
          <div className={styles.steps}>
            <ButtonLink href={openHref.replace('-{step}', '')}>Show the working</ButtonLink>
            <ButtonLink href={spotCheckHref} weight="quiet">
              Work out readings of your own
            </ButtonLink>
          </div>
        </Section>
      </div>
    );
  }
  return (
    <Section
      id="how"
      title="How was this worked out?"
      lead={<p>{lead(worked)}</p>}
      actions={<Steps worked={worked} closeHref={closeHref} spotCheckHref={spotCheckHref} />}
    >
      {worked.table.length === 0 ? null : (
        <div className={styles.reading}>
          <ReadingTable rows={worked.table} />
          {worked.balanceTest === null ? null : <p className={styles.note}>{worked.balanceTest}</p>}
          <SuspectTable rows={worked.suspects} />
        </div>
      )}
      {worked.steps.map((step) => (
        <WorkedStepLines key={step.id} step={step} />
      ))}
    </Section>
  );
}

function lead({ time, reasons, isAskedForFound }: WorkedView): string {
  if (time === null) return 'This period holds no accepted reading to work out; choose another period above.';
  const nearest = isAskedForFound ? '' : ' It is the accepted reading nearest to the one asked for.';
  if (reasons.length > 0)
    return `The reading of ${time} was left out: ${reasons.join(', ')}. What could be worked out all the same is shown.`;
  return `The reading of ${time}, accepted.${nearest}`;
}

function Steps({
  worked,
  closeHref,
  spotCheckHref,
}: Omit<Props, 'worked' | 'openHref'> & { worked: WorkedView }) {
  return (
    <nav className={`${styles.steps} screen-only`} aria-label="Reading">
      {worked.previous === null ? null : (
        <ButtonLink href={worked.previous} weight="quiet">
          ‹ Previous reading
        </ButtonLink>
      )}
      {worked.next === null ? null : (
        <ButtonLink href={worked.next} weight="quiet">
          Next reading ›
        </ButtonLink>
      )}
      <ButtonLink href={spotCheckHref} weight="quiet">
        Spot check
      </ButtonLink>
      <ButtonLink href={closeHref} weight="quiet">
        Close
      </ButtonLink>
    </nav>
  );
}
