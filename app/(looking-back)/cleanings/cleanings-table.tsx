import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { CleaningRow } from '@/lib/report/cleanings/cleaning-row';
import styles from './cleanings.module.css';
import { FallBar } from './fall-bar';

type Props = { rows: CleaningRow[]; foulingUnit: string };

/** Rows a browser lays out without a wait; the file has all. */
export const MOST_ROWS = 500;

/** One cleaning a row: fouling before and after, share recovered, worth so far, cost, and whether it has paid. */
export function CleaningsTable({ rows, foulingUnit }: Props) {
  const shown = rows.slice(0, MOST_ROWS);
  return (
    <Table
      caption="Cleanings of the period, the latest first"
      columns={[
        { key: 'tag', head: 'Unit' },
        { key: 'day', head: 'Day' },
        { key: 'method', head: 'Method' },
        { key: 'fall', head: 'Fouling', unit: '○ before, ● after, ⁝ limit' },
        { key: 'before', head: 'Before', unit: foulingUnit, isNumber: true },
        { key: 'after', head: 'After', unit: foulingUnit, isNumber: true },
        { key: 'recovered', head: 'Recovered', isNumber: true },
        { key: 'energy', head: 'Won back', unit: 'at least, so far', isNumber: true },
        { key: 'worth', head: 'Worth', unit: 'at least, so far', isNumber: true },
        { key: 'cost', head: 'Cost', isNumber: true },
        { key: 'net', head: 'Net', unit: 'so far', isNumber: true },
      ]}
      rowHead="tag"
      rows={shown.map((row) => ({ key: row.key, cells: cellsOf(row) }))}
    />
  );
}

function cellsOf(row: CleaningRow) {
  return {
    ...row,
    tag: (
      <>
        <Link href={row.href} prefetch={false}>
          {row.tag}
        </Link>
        <span className={styles.service}>{row.service}</span>
      </>
    ),
    day: <span className={styles.whole}>{row.day}</span>,
    method: <span className={styles.method}>{row.method}</span>,
    fall: <FallBar fall={row.fall} />,
    recovered: row.hasResult ? row.recovered : <span className={styles.without}>{row.recovered}</span>,
    energy: (
      <>
        {row.energy}
        {row.until === '' ? null : <span className={styles.until}>{row.until}</span>}
      </>
    ),
    net: (
      <>
        {row.net}
        {row.isPaid === null ? null : (
          <span className={styles.paid}>{row.isPaid ? '✓ paid' : 'not yet paid'}</span>
        )}
      </>
    ),
  };
}
