import Link from 'next/link';
import { Maths } from '@/app/ui/maths/maths';
import { Table } from '@/app/ui/table/table';
import type { ReadingRow } from '@/lib/report/worked/reading-table';
import type { SuspectRow } from '@/lib/report/worked/suspect-rows';
import type { WorkedStep } from '@/lib/report/worked/worked-step';
import styles from './worked.module.css';

/** The six values as read and as reconciled. */
export function ReadingTable({ rows }: { rows: ReadingRow[] }) {
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
      rows={rows.map((row) => ({ key: row.label, cells: { ...row } }))}
    />
  );
}

/** Which sensor would have to be off by how much, if it were the only one: the least demanding explanation first. */
export function SuspectTable({ rows }: { rows: SuspectRow[] }) {
  if (rows.length === 0) return null;
  return (
    <>
      <p className={styles.note}>
        What each sensor alone would have to read too much by, for this balance not to close as it does; the
        least in its own standard uncertainties first. This ranks suspects and blames none.
      </p>
      <Table
        caption="Error of one sensor alone that would explain the balance"
        columns={[
          { key: 'label', head: 'Sensor' },
          { key: 'bias', head: 'Too much by', isNumber: true },
          { key: 'share', head: 'of the flow', isNumber: true },
          { key: 'inUncertainties', head: 'in uncertainties', isNumber: true },
        ]}
        rowHead="label"
        rows={rows.map((row) => ({ key: row.label, cells: { ...row } }))}
      />
    </>
  );
}

/** One step of a working: formulas in symbols, with figures, and what comes out. */
export function WorkedStepLines({ step }: { step: WorkedStep }) {
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
      {step.more === undefined ? null : (
        <p className={`${styles.note} screen-only`}>
          <Link href={step.more.href}>{step.more.label}</Link>
        </p>
      )}
    </div>
  );
}
