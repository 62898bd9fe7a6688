import type { ReactNode } from 'react';
import { Notice } from '@/app/ui/notice/notice';
import { Table } from '@/app/ui/table/table';
import type { CheckView, FaultRow, UnderstoodRow } from '@/lib/report/fleet-sheet/check-view';
import styles from './fleet-sheet.module.css';

/** What is wrong in a workbook, cell by cell, beside what was understood of it. */
export function CheckResult({ view, children }: { view: CheckView; children: ReactNode }) {
  const { summary, action, faults, faultsLeftOff, understood, notes } = view;
  return (
    <>
      <div className={styles.summary}>
        <Notice kind={faults.length > 0 ? 'problem' : 'plain'} title={titleOf(view)}>
          <p>{summary}</p>
          {action === null && faults.length === 0 ? <p>There is nothing to register.</p> : null}
        </Notice>
        {children}
      </div>
      <div className={faults.length > 0 && understood.length > 0 ? styles.beside : styles.flow}>
        {faults.length === 0 ? null : <Faults faults={faults} leftOff={faultsLeftOff} />}
        {understood.length === 0 ? null : <Understood rows={understood} />}
      </div>
      {notes.length === 0 ? null : <Notes notes={notes} />}
    </>
  );
}

function titleOf({ faults, action }: CheckView): string {
  if (faults.length > 0) return 'Not yet';
  return action === null ? 'Nothing differs' : 'All cells can be read';
}

function Faults({ faults, leftOff }: { faults: FaultRow[]; leftOff: string | null }) {
  return (
    <section className={styles.part} aria-labelledby="to-mend">
      <h3 id="to-mend">To mend</h3>
      <div className={styles.faults}>
        <Table
          caption="Cells to mend"
          rowHead="place"
          columns={[
            { key: 'place', head: 'Cell' },
            { key: 'what', head: 'Unit and column' },
            { key: 'message', head: 'What is wrong, and what to do' },
          ]}
          rows={faults.map(({ key, place, tag, heading, message }) => ({
            key,
            cells: {
              place: <code>{place}</code>,
              what: (
                <>
                  {tag === '' ? null : <strong>{tag} </strong>}
                  {heading}
                </>
              ),
              message: <span className={styles.message}>{message}</span>,
            },
          }))}
        />
      </div>
      {leftOff === null ? null : <p className={styles.faint}>{leftOff}</p>}
    </section>
  );
}

function Understood({ rows }: { rows: UnderstoodRow[] }) {
  return (
    <section className={styles.part} aria-labelledby="understood">
      <h3 id="understood">What would change</h3>
      <Table
        caption="Units that are new or would change"
        rowHead="tag"
        columns={[
          { key: 'tag', head: 'Unit' },
          { key: 'site', head: 'Site' },
          { key: 'outcome', head: 'Is' },
          { key: 'changes', head: 'Changes' },
        ]}
        rows={rows.map(({ key, tag, site, outcome, changes }) => ({
          key,
          cells: {
            tag,
            site,
            outcome,
            changes: (
              <ul className={styles.changes}>
                {changes.map((change) => (
                  <li key={change}>{change}</li>
                ))}
              </ul>
            ),
          },
        }))}
      />
    </section>
  );
}

function Notes({ notes }: { notes: string[] }) {
  return (
    <section className={styles.part} aria-labelledby="passed-over">
      <h3 id="passed-over">Passed over</h3>
      <ul className={styles.notes}>
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </section>
  );
}
