import Link from 'next/link';
import { StateMark } from '@/app/ui/state-mark/state-mark';
import { Table } from '@/app/ui/table/table';
import type { HealthRow } from '@/lib/report/health/health-view';
import { DayStrip } from './day-strip';
import styles from './health.module.css';

type Props = {
  caption: string;
  rows: HealthRow[];
  days: number;
  /** Without what to do, where there is nothing to. */
  isShort?: boolean;
};

/** One unit a row: its last days side by side, what is wrong since when, and what to do. */
export function HealthTable({ caption, rows, days, isShort }: Props) {
  return (
    <Table
      caption={caption}
      columns={[
        { key: 'tag', head: 'Unit' },
        { key: 'state', head: 'State' },
        { key: 'usable', head: 'Usable', isNumber: true },
        { key: 'days', head: 'Day by day', unit: `last ${days} days, full height: all usable` },
        ...(isShort ? [] : [{ key: 'suspectSince', head: 'Suspect since' }]),
        { key: 'what', head: isShort ? 'What left out most' : 'What is wrong' },
        ...(isShort ? [] : [{ key: 'todo', head: 'What to do' }]),
      ]}
      rowHead="tag"
      rows={rows.map((row) => ({
        key: row.tag,
        cells: {
          tag: (
            <>
              <Link href={row.href} prefetch={false}>
                {row.tag}
              </Link>
              <span className={styles.service}>{row.service}</span>
            </>
          ),
          state: <StateMark state={row.state} />,
          usable: row.usable,
          days: <DayStrip cells={row.days} sentence={row.daysSentence} />,
          suspectSince: <span className={styles.whole}>{row.suspectSince}</span>,
          what: <span className={styles.words}>{sentence(row.what)}</span>,
          todo: <span className={styles.words}>{row.todo}</span>,
        },
      }))}
    />
  );
}

function sentence(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}
