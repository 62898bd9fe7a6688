import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { WatchedFolder } from '@/lib/report/import/intake-view';
import styles from './import.module.css';

/** The watched folders with what was taken last and what is refused as it stands. */
export function WatchedList({ folders }: { folders: WatchedFolder[] }) {
  return folders.map(({ folder, lastTaken, files }) => (
    <div key={folder} className={styles.watched}>
      <h3>
        <code>{folder}</code>
      </h3>
      <p className={styles.faint}>{lastTaken}</p>
      <Table
        caption={`Latest files of ${folder}`}
        columns={[
          { key: 'name', head: 'File' },
          { key: 'at', head: 'Looked at' },
          { key: 'outcome', head: 'Outcome' },
        ]}
        rowHead="name"
        rows={files.map(({ name, at, outcome, href, isRefused }) => ({
          key: name,
          cells: {
            name,
            at,
            outcome: isRefused ? (
              <span className={styles.remedy}>
                <strong>Refused.</strong> {outcome}
              </span>
            ) : href === null ? (
              outcome
            ) : (
              <Link href={href}>{outcome}</Link>
            ),
          },
        }))}
      />
    </div>
  ));
}
