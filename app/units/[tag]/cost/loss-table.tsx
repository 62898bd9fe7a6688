import { Table } from '@/app/ui/table/table';
import type { CostRow } from '@/lib/report/unit-cost/cost-table';
import styles from './cost.module.css';

/** Energy, money and carbon of some periods, with the days they rest on. */
export function LossTable({ caption, head, rows }: { caption: string; head: string; rows: CostRow[] }) {
  return (
    <div className={styles.table}>
      <Table
        caption={caption}
        columns={[
          { key: 'label', head },
          { key: 'heat', head: 'Heat not transferred', isNumber: true },
          { key: 'pumping', head: 'Extra pumping', isNumber: true },
          { key: 'money', head: 'Money', isNumber: true },
          { key: 'carbon', head: 'CO₂e', isNumber: true },
          { key: 'counted', head: 'Days counted', isNumber: true },
          { key: 'bridged', head: 'of them between figures', isNumber: true },
          { key: 'without', head: 'Days not counted', isNumber: true },
          { key: 'unpriced', head: 'Days without a price', isNumber: true },
        ]}
        rowHead="label"
        rows={rows.map(({ key, days, ...row }) => ({ key, cells: { ...row, ...days } }))}
      />
    </div>
  );
}
