import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { HistoryRow } from '@/lib/report/reference/reference-view';
import styles from './reference.module.css';

/** Every reference the unit ever had, newest first; none is ever overwritten. */
export function HistoryTable({ rows }: { rows: HistoryRow[] }) {
  return (
    <Section id="history" title="All references">
      {rows.length === 0 ? (
        <p className={styles.said}>None was accepted yet: the datasheet says what counts as clean.</p>
      ) : (
        <Table
          caption="All clean references, newest first"
          columns={[
            { key: 'number', head: 'No.', isNumber: true },
            { key: 'state', head: 'State' },
            { key: 'method', head: 'Method' },
            { key: 'factors', head: 'Factors ± standard error' },
            { key: 'since', head: 'Holds from' },
            { key: 'learnedFrom', head: 'Learned from' },
            { key: 'accepted', head: 'Accepted' },
            { key: 'reason', head: 'Why' },
          ]}
          rowHead="number"
          rows={rows.map(({ isInForce, acceptedBy, acceptedOn, reason, ...row }) => ({
            key: `${row.number}`,
            cells: {
              ...row,
              state: isInForce ? <strong>in force</strong> : 'replaced',
              accepted: `${acceptedBy}, ${acceptedOn}`,
              reason: <span className={styles.reason}>{reason}</span>,
            },
          }))}
        />
      )}
    </Section>
  );
}
