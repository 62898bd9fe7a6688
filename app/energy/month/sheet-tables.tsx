import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { GroupRow } from '@/lib/report/energy/group-rows';
import type { MonthView } from '@/lib/report/energy/month-view';
import { countOf } from '@/lib/report/format/words';
import { ParetoBar } from '../pareto-bar';
import styles from './month.module.css';

/** The ten dearest units of one currency. */
export function SheetUnits({ list }: { list: MonthView['lists'][number] }) {
  return (
    <>
      <p className={styles.small}>{list.sentence}</p>
      <Table
        caption={`The dearest units, ${list.currency}`}
        columns={[
          { key: 'tag', head: 'Unit' },
          { key: 'money', head: 'Cost', isNumber: true },
          { key: 'bar', head: 'Share', unit: 'with all above' },
          { key: 'heat', head: 'Heat', isNumber: true },
        ]}
        rowHead="tag"
        rows={list.rows.map((row) => ({
          key: row.tag,
          cells: {
            money: row.money,
            heat: row.held === '' ? row.heat : 'outlet held',
            bar: <ParetoBar row={row} />,
            tag: (
              <>
                <Link href={row.href} prefetch={false}>
                  {row.tag}
                </Link>{' '}
                <span className={styles.service}>{row.service}</span>
              </>
            ),
          },
        }))}
      />
      {list.others === 0 ? null : (
        <p className={styles.small}>and {countOf(list.others, 'other unit')} with a loss</p>
      )}
    </>
  );
}

/** Sums by site and by what the heat is for. */
export function SheetGroups({ rows }: { rows: GroupRow[] }) {
  return (
    <Table
      caption="By site, and by what the heat is for"
      columns={[
        { key: 'name', head: 'Of which' },
        { key: 'money', head: 'Cost', isNumber: true },
        { key: 'heat', head: 'Heat', isNumber: true },
      ]}
      rowHead="name"
      rows={rows.map(({ key, name, money, heat }) => ({ key, cells: { name, money, heat } }))}
    />
  );
}
