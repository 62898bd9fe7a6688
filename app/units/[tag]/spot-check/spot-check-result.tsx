import { AllowanceBar } from '@/app/ui/allowance-bar/allowance-bar';
import { Notice } from '@/app/ui/notice/notice';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import { Value } from '@/app/ui/value/value';
import type { SpotCheckResult as Result } from '@/lib/report/spot-check/spot-check-view';
import { ReadingTable, SuspectTable, WorkedStepLines } from '../worked-parts';
import { PrintButton } from './print-button';
import styles from './spot-check.module.css';

type Props = { result: Result; by: string; note: string };

/** What one reading says of the unit: whether it counts, the figures, the table of values, and every formula. */
export function SpotCheckResult({ result, by, note }: Props) {
  return (
    <>
      <Section id="result" title="Result" actions={<PrintButton />}>
        <CheckDetails result={result} by={by} note={note} />
        <Verdict result={result} />
        <Figures result={result} />
        <div className={styles.table}>
          <ReadingTable rows={result.table} />
        </div>
        {result.balanceTest === null ? null : <p className={styles.remark}>{result.balanceTest}</p>}
        <div className="screen-only">
          <SuspectTable rows={result.suspects} />
        </div>
        <PressureDrops result={result} />
      </Section>
      {result.steps.length === 0 ? null : (
        <Section id="how" title="How was this worked out?">
          <div className={styles.steps}>
            {result.steps.map((step) => (
              <WorkedStepLines key={step.id} step={step} />
            ))}
          </div>
        </Section>
      )}
    </>
  );
}

function CheckDetails({ result, by, note }: Props) {
  const rows = [
    { term: 'Taken at', said: result.time },
    { term: 'By', said: by },
    { term: 'Instruments', said: result.instruments.join(' ') },
    { term: 'Note', said: note },
  ].filter(({ said }) => said !== '');
  return (
    <dl className={styles.details}>
      {rows.map(({ term, said }) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{said}</dd>
        </div>
      ))}
    </dl>
  );
}

function Verdict({ result }: { result: Result }) {
  const { reasons, remarks, againstTrend, allowance } = result;
  return (
    <div className={styles.verdict}>
      {reasons.length === 0 ? (
        <p className={styles.statement}>
          <strong>Accepted.</strong> {againstTrend?.sentence}
        </p>
      ) : (
        <Notice kind="problem" title="Not accepted">
          <ul className={styles.reasons}>
            {reasons.map(({ name, meaning, advice }) => (
              <li key={name}>
                <strong>{name}.</strong> {meaning} {advice}
              </li>
            ))}
          </ul>
          {result.figures.length === 0 ? null : (
            <p>What could be worked out all the same stands below; do not rely on it.</p>
          )}
        </Notice>
      )}
      {allowance === null ? null : <AllowanceBar {...allowance} heading={null} headingText="" />}
      {remarks.map((remark) => (
        <p key={remark} className={styles.remark}>
          {remark}
        </p>
      ))}
    </div>
  );
}

function Figures({ result }: { result: Result }) {
  if (result.figures.length === 0) return null;
  return (
    <dl className={styles.figures}>
      {result.figures.map(({ label, figure, note, step, missing }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>
            <Value figure={figure} when={note ?? undefined} missing={missing} />
            <a
              className={`${styles.how} screen-only`}
              href={`#how-${step}`}
              aria-label={`${label}: how was this worked out?`}
            >
              How?
            </a>
          </dd>
        </div>
      ))}
    </dl>
  );
}

function PressureDrops({ result }: { result: Result }) {
  if (result.pressureDrops.length === 0) return null;
  return (
    <div className={styles.pressure}>
      <Table
        caption="Pressure drops, moved to the design flow so that they compare"
        isCaptionShown
        columns={[
          { key: 'label', head: 'Side' },
          { key: 'read', head: 'As read', isNumber: true },
          { key: 'atDesignFlow', head: 'At design flow', isNumber: true },
          { key: 'limit', head: 'Limit', isNumber: true },
        ]}
        rowHead="label"
        rows={result.pressureDrops.map((row) => ({ key: row.label, cells: { ...row } }))}
      />
    </div>
  );
}
