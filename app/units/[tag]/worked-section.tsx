import { ButtonLink } from '@/app/ui/button/button';
import { Maths } from '@/app/ui/maths/maths';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { WorkedStep } from '@/lib/report/worked/worked-step';
import type { WorkedView } from '@/lib/report/worked/worked-view';
import styles from './worked.module.css';

type Props = { worked: WorkedView | null; openHref: string; closeHref: string };

/** Every formula behind the figures with one reading's numbers in it, in the reader's units. */
export function WorkedSection({ worked, openHref, closeHref }: Props) {
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
          <ButtonLink href={openHref.replace('-{step}', '')}>Show the working</ButtonLink>
        </Section>
      </div>
    );
  }
  return (
    <Section
      id="how"
      title="How was this worked out?"
      lead={<p>{lead(worked)}</p>}
      actions={<Steps worked={worked} closeHref={closeHref} />}
    >
      {worked.table.length === 0 ? null : (
        <div className={styles.reading}>
          <ReadingTable worked={worked} />
        </div>
      )}
      {worked.steps.map((step) => (
        <Step key={step.id} step={step} />
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

function Steps({ worked, closeHref }: { worked: WorkedView; closeHref: string }) {
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
      <ButtonLink href={closeHref} weight="quiet">
        Close
      </ButtonLink>
    </nav>
  );
}

function ReadingTable({ worked }: { worked: WorkedView }) {
  return (
    <Table
      caption="The reading: as read, and reconciled"
      columns={[
        { key: 'label', head: 'Sensor' },
        { key: 'read', head: 'As read', isNumber: true },
        { key: 'uncertainty', head: 'Standard uncertainty', isNumber: true },
        { key: 'reconciled', head: 'Reconciled', isNumber: true },
        { key: 'change', head: 'Change in uncertainties', isNumber: true },
      ]}
      rowHead="label"
      rows={worked.table.map((row) => ({ key: row.label, cells: { ...row } }))}
    />
  );
}

function Step({ step }: { step: WorkedStep }) {
  return (
    <div className={styles.step} id={`how-${step.id}`}>
      <h3>{step.title}</h3>
      <div className={styles.lines}>
        {step.lines.map((line) => (
          <div key={line.symbols + line.figures} className={styles.line}>
            <span className={styles.symbols}>
              <Maths text={line.symbols} />
            </span>
            <span className={styles.figures}>
              {/\d/.test(line.figures) ? <span className={styles.equals}>= </span> : null}
              <Maths text={line.figures} />
            </span>
            <span className={styles.result}>
              <span className={styles.equals}>= </span>
              <Maths text={line.result} />
            </span>
          </div>
        ))}
      </div>
      {step.notes.map((note) => (
        <p key={note} className={styles.note}>
          {note}
        </p>
      ))}
    </div>
  );
}
