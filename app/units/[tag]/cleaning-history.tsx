import { Table } from '@/app/ui/table/table';
import type { CleaningChangeRow } from '@/lib/report/unit/cleaning-history';
import styles from './cycles.module.css';

/** Cleanings as they stood before somebody corrected or withdrew them. */
export function CleaningHistory({ rows }: { rows: CleaningChangeRow[] }) {
  return (
    <details className={styles.earlier}>
      <summary>Corrected or withdrawn: {rows.length}</summary>
      <Table
        caption="Cleanings as they stood before they were corrected or withdrawn, the latest change first"
        columns={[
          { key: 'stood', head: 'Stood as' },
          { key: 'figures', head: 'With' },
          { key: 'became', head: 'Then' },
          { key: 'by', head: 'By' },
          { key: 'reason', head: 'Why' },
        ]}
        rowHead="stood"
        rows={rows.map(({ key, ...cells }) => ({ key, cells }))}
      />
    </details>
  );
}
