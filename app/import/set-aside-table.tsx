import { Table } from '@/app/ui/table/table';
import styles from './import.module.css';

type Row = { line: number; text: string; reason: string; message: string };

/** Rows kept aside: where, what is written there, why, and what would mend it. */
export function SetAsideTable({ rows }: { rows: Row[] }) {
  return (
    <div className={styles.aside}>
      <Table
        caption="Rows kept aside"
        columns={[
          { key: 'line', head: 'Line', isNumber: true },
          { key: 'text', head: 'As written' },
          { key: 'reason', head: 'Reason' },
          { key: 'message', head: 'What to do' },
        ]}
        rows={rows.map(({ line, text, reason, message }, place) => ({
          key: `${line} ${place}`,
          cells: {
            line,
            text: <code className={styles.raw}>{text}</code>,
            reason,
            message: <span className={styles.remedy}>{message}</span>,
          },
        }))}
      />
    </div>
  );
}
