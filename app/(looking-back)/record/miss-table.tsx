import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { MissRow } from '@/lib/report/record/miss-row';
import styles from './record.module.css';

/** Past projections that did not come true within their band, each with the cycle it was made in. */
export function MissTable({ rows }: { rows: MissRow[] }) {
  if (rows.length === 0) return null;
  return (
    <Table
      caption="Past projections furthest outside their band"
      columns={[
        { key: 'tag', head: 'Unit' },
        { key: 'service', head: 'Service' },
        { key: 'madeOn', head: 'Made on' },
        { key: 'projected', head: 'Projected', unit: 'P50 (P10 to P90)' },
        { key: 'reached', head: 'Came true' },
        { key: 'error', head: 'Error of P50', isNumber: true },
        { key: 'score', head: 'Off by', unit: 'half-widths of its band', isNumber: true },
      ]}
      rowHead="tag"
      rows={rows.map(({ key, tag, href, madeOn, projected, reached, ...cells }) => ({
        key,
        cells: {
          ...cells,
          madeOn: <span className={styles.whole}>{madeOn}</span>,
          projected: <span className={styles.whole}>{projected}</span>,
          reached: <span className={styles.whole}>{reached}</span>,
          tag: (
            <Link href={href} prefetch={false}>
              {tag}
            </Link>
          ),
        },
      }))}
    />
  );
}
