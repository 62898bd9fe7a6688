import { Table } from '@/app/ui/table/table';
import type { WorkDoneRow, WorkRow } from '@/lib/report/work-list/work-row';
import { AddFiles } from './add-files';
import { FileList } from './file-list';
import { History, UnitCell } from './unit-cell';
import styles from './work.module.css';

/** Work that was done: when and how, what it did, and what was kept with it. */
export function DoneTable({ rows }: { rows: WorkRow[] }) {
  return (
    <Table
      caption="Cleanings that were done, the latest first"
      columns={[
        { key: 'unit', head: 'Unit' },
        { key: 'done', head: 'Back in service' },
        { key: 'planned', head: 'Was planned for' },
        { key: 'recovered', head: 'Recovered' },
        { key: 'duty', head: 'Duty won', isNumber: true },
        { key: 'worth', head: 'Worth', unit: 'at least, so far', isNumber: true },
        { key: 'saves', head: 'Avoids', unit: 'loss, projected', isNumber: true },
        { key: 'files', head: 'Photographs, reports' },
      ]}
      rowHead="unit"
      rows={rows.flatMap((row) => (row.done === null ? [] : [rowOf(row, row.done)]))}
    />
  );
}

function rowOf(row: WorkRow, done: WorkDoneRow) {
  const { result } = done;
  return {
    key: `${row.id}`,
    cells: {
      unit: <UnitCell row={row} />,
      done: (
        <>
          {done.at}
          <span className={styles.small}>{done.how}</span>
          {done.note === null ? null : <span className={styles.small}>{done.note}</span>}
        </>
      ),
      planned: (
        <>
          {row.when}
          <span className={styles.small}>{row.place}</span>
          <History row={row} />
        </>
      ),
      recovered: <span className={styles.reason}>{result.recovered}</span>,
      duty: result.duty,
      worth: (
        <>
          {result.worth}
          {result.until === '' ? null : <span className={styles.small}>{result.until}</span>}
        </>
      ),
      saves: row.saves,
      files: (
        <>
          <FileList files={done.files} />
          <AddFiles cleaning={done.cleaning} what={`cleaning of ${row.tag}, ${done.at}`} />
        </>
      ),
    },
  };
}
