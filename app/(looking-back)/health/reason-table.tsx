import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { ReasonRow } from '@/lib/report/health/health-view';
import styles from './health.module.css';

/** Reasons by readings left out, the units they hit most, and what to do. */
export function ReasonTable({ rows }: { rows: ReasonRow[] }) {
  return (
    <Table
      caption="Reasons by readings left out, the most frequent first"
      columns={[
        { key: 'name', head: 'Reason' },
        { key: 'readings', head: 'Readings', isNumber: true },
        { key: 'share', head: 'Of all', unit: 'while running', isNumber: true },
        { key: 'units', head: 'Units', isNumber: true },
        { key: 'most', head: 'Most of them at' },
        { key: 'advice', head: 'What to do' },
      ]}
      rowHead="name"
      rows={rows.map(({ most, advice, ...cells }) => ({
        key: cells.name,
        cells: {
          ...cells,
          most: (
            <span className={styles.most}>
              {most.map(({ tag, href, count }) => (
                <span key={tag}>
                  <Link href={href} prefetch={false}>
                    {tag}
                  </Link>{' '}
                  {count}
                </span>
              ))}
            </span>
          ),
          advice: <span className={styles.words}>{advice}</span>,
        },
      }))}
    />
  );
}
