import Link from 'next/link';
import { Section } from '@/app/ui/section/section';
import { type Column, Table } from '@/app/ui/table/table';
import type { ReturnedRow, ReturnedView } from '@/lib/report/energy/returned-view';
import { countOf } from '@/lib/report/format/words';
import styles from './energy.module.css';

/** Cleanings that stand open; the rest follow when asked for. */
const MOST_OPEN = 10;

type Props = { returned: ReturnedView; href: string; period: string };

/** What the cleanings of the period returned against what they cost. */
export function ReturnedPart({ returned, href, period }: Props) {
  const rest = returned.rows.slice(MOST_OPEN);
  return (
    <Section
      id="returned"
      title="What cleanings returned"
      lead={
        <>
          {returned.sentences.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <p>
            <Link href={href}>What each cleaning of this period did</Link>: fouling before and after, and how
            methods compare.
          </p>
        </>
      }
    >
      {returned.rows.length === 0 ? null : (
        <Rows
          caption={`Cleanings done ${period} and what they returned so far`}
          rows={returned.rows.slice(0, MOST_OPEN)}
        />
      )}
      {rest.length === 0 ? null : (
        <details className={styles.details}>
          <summary>The other {countOf(rest.length, 'cleaning')}</summary>
          <Rows caption={`Further cleanings done ${period}`} rows={rest} />
        </details>
      )}
      {returned.uncounted.map((line) => (
        <p key={line} className={styles.counted}>
          {line}
        </p>
      ))}
    </Section>
  );
}

const COLUMNS: Column[] = [
  { key: 'tag', head: 'Unit' },
  { key: 'day', head: 'Cleaned' },
  { key: 'method', head: 'Method' },
  { key: 'cost', head: 'Cost', isNumber: true },
  { key: 'energy', head: 'Heat won back', unit: 'at least, so far', isNumber: true },
  { key: 'returned', head: 'Returned', unit: 'at least, so far', isNumber: true },
  { key: 'net', head: 'Net', unit: 'so far', isNumber: true },
  { key: 'paidBack', head: 'Paid back on', isNumber: true },
];

function Rows({ caption, rows }: { caption: string; rows: ReturnedRow[] }) {
  return (
    <Table
      caption={caption}
      columns={COLUMNS}
      rowHead="tag"
      rows={rows.map((row) => ({ key: row.key, cells: cellsOf(row) }))}
    />
  );
}

function cellsOf(row: ReturnedRow) {
  return {
    ...row,
    tag: (
      <Link href={row.href} prefetch={false}>
        {row.tag}
      </Link>
    ),
    day: <span className={styles.whole}>{row.day}</span>,
  };
}
