import { Table } from '@/app/ui/table/table';
import type { WorkRow } from '@/lib/report/work-list/work-row';
import { UnitCell } from './unit-cell';
import styles from './work.module.css';

/** Work that was called off, by whom and why. */
export function CalledOffTable({ rows }: { rows: WorkRow[] }) {
  return (
    <Table
      caption="Cleanings that were called off, the latest first"
      columns={[
        { key: 'unit', head: 'Unit' },
        { key: 'when', head: 'Was planned for' },
        { key: 'history', head: 'What became of it' },
      ]}
      rowHead="unit"
      rows={rows.map((row) => ({
        key: `${row.id}`,
        cells: {
          unit: <UnitCell row={row} />,
          when: row.when,
          history: (
            <ul className={styles.lines}>
              {row.history.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          ),
        },
      }))}
    />
  );
}
