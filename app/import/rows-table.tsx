import { Table } from '@/app/ui/table/table';
import type { PreviewTable } from '@/lib/report/import/preview-view';
import styles from './import.module.css';

/** The first rows as they would be stored, in the reader's units, beside the text they come from. */
export function RowsTable({ table }: { table: PreviewTable }) {
  return (
    <div>
      <h4>The first rows as read</h4>
      <Table
        caption="The first rows as read, beside the text of the file"
        columns={[
          { key: 'line', head: 'Line', isNumber: true },
          { key: 'text', head: 'As written' },
          { key: 'tag', head: 'Unit' },
          { key: 'time', head: 'Site time' },
          ...table.sensors.map(({ sensor, head, unit }) => ({ key: sensor, head, unit, isNumber: true })),
        ]}
        rows={table.rows.map(({ key, line, text, tag, time, values }) => ({
          key,
          cells: {
            line,
            text: <code className={styles.raw}>{text}</code>,
            tag: tag === '' ? <span className={styles.faint}>not read</span> : tag,
            time,
            ...Object.fromEntries(table.sensors.map(({ sensor }, i) => [sensor, values[i]])),
          },
        }))}
      />
    </div>
  );
}
