import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { ChangeRow } from '@/lib/report/changes/changes-view';
import styles from './changes.module.css';

/** One change: when, who, what became of what; opened, every field before and after. */
export function ChangeLine({ row }: { row: ChangeRow }) {
  return (
    <li>
      <details className={styles.change}>
        <summary>
          <time className={styles.when} dateTime={row.at}>
            {row.when}
          </time>
          <span className={styles.who}>
            {row.who}
            {row.whoIs === null ? null : <span className={styles.whoIs}>{row.whoIs}</span>}
          </span>
          <span className={styles.what}>{row.text}</span>
        </summary>
        <div className={styles.inside}>
          {row.note === null ? null : <p>“{row.note}”</p>}
          {row.fields.length === 0 ? null : <Fields row={row} />}
          {row.unitHref === null ? null : <Link href={row.unitHref}>To the unit</Link>}
        </div>
      </details>
    </li>
  );
}

function Fields({ row }: { row: ChangeRow }) {
  return (
    <Table
      caption={`Before and after: ${row.text}`}
      columns={[
        { key: 'field', head: row.subject },
        { key: 'before', head: 'Before' },
        { key: 'after', head: 'After' },
      ]}
      rowHead="field"
      rows={row.fields.map(({ field, before, after }) => ({
        key: field,
        cells: { field, before, after },
      }))}
    />
  );
}
