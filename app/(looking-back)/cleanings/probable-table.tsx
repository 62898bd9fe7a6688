import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { ProbableRow } from '@/lib/report/cleanings/probable-row';
import styles from './cleanings.module.css';

/** Falls of the fouling that wait for a person, each with the way to where it is answered. */
export function ProbableTable({ rows }: { rows: ProbableRow[] }) {
  return (
    <Table
      caption="Probable cleanings waiting for an answer, the latest first"
      columns={[
        { key: 'tag', head: 'Unit' },
        { key: 'day', head: 'First day after' },
        { key: 'fell', head: 'Fouling fell by', isNumber: true },
        { key: 'share', head: 'Of the allowance', isNumber: true },
        { key: 'answer', head: 'Was it a cleaning?' },
      ]}
      rowHead="tag"
      rows={rows.map(({ key, href, tag, service, ...cells }) => ({
        key,
        cells: {
          ...cells,
          day: <span className={styles.whole}>{cells.day}</span>,
          tag: (
            <>
              {tag}
              <span className={styles.service}>{service}</span>
            </>
          ),
          answer: (
            <Link href={href} prefetch={false} aria-label={`Answer for ${tag}, ${cells.day}`}>
              Look and answer
            </Link>
          ),
        },
      }))}
    />
  );
}
