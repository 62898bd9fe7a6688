import { Table } from '@/app/ui/table/table';
import { type CostDoubt, type CostRow, doubtsIn } from '@/lib/report/unit-cost/cost-table';
import styles from './cost.module.css';

/** Energy, money and carbon of some periods, with the days they rest on. */
export function LossTable({ caption, head, rows }: { caption: string; head: string; rows: CostRow[] }) {
  const doubts = doubtsIn(rows).map((key) => ({ key, head: DOUBT_HEADS[key], isNumber: true }));
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
          ...doubts,
        ]}
        rowHead="label"
        rows={rows.map(({ key, days, ...row }) => ({ key, cells: { ...row, ...days } }))}
      />
    </div>
  );
}

const DOUBT_HEADS: Record<CostDoubt, string> = {
  bridged: 'of them between figures',
  without: 'Days not counted',
  unpriced: 'Days without a price',
};
