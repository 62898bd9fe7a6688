import Link from 'next/link';
import { type Column, Table } from '@/app/ui/table/table';
import type { UnitList, UnitRow } from '@/lib/report/energy/unit-rows';
import { countOf } from '@/lib/report/format/words';
import styles from './energy.module.css';
import { ParetoBar } from './pareto-bar';

/** Rows that stand open at the least; those that make 80 % always do. */
const MOST_OPEN = 10;

/** The units of one currency, the dearest first, with what they and all above make of the whole. */
export function UnitTable({ list }: { list: UnitList }) {
  const open = Math.max(MOST_OPEN, list.makeMost);
  const rest = list.rows.slice(open);
  return (
    <>
      <p className={styles.sentence}>{list.sentence}</p>
      <Rows list={list} rows={list.rows.slice(0, open)} name="the dearest first" />
      {rest.length === 0 ? null : (
        <details className={styles.details}>
          <summary>The other {countOf(rest.length, 'unit')}</summary>
          <Rows list={list} rows={rest} name="the rest" />
        </details>
      )}
    </>
  );
}

const COLUMNS: Column[] = [
  { key: 'tag', head: 'Unit' },
  { key: 'site', head: 'Site' },
  { key: 'money', head: 'Cost', isNumber: true },
  { key: 'bar', head: 'Share', unit: 'bar: this unit; %: with all above' },
  { key: 'heat', head: 'Heat', unit: 'not transferred', isNumber: true },
  { key: 'pumping', head: 'Pumping', unit: 'extra', isNumber: true },
  { key: 'carbon', head: 'CO2e', isNumber: true },
  { key: 'days', head: 'Days', unit: 'counted', isNumber: true },
];

function Rows({ list, rows, name }: { list: UnitList; rows: UnitRow[]; name: string }) {
  return (
    <Table
      caption={`Units by what their fouling cost, ${list.currency}, ${name}`}
      columns={COLUMNS}
      rowHead="tag"
      rows={rows.map((row) => ({ key: row.tag, cells: cellsOf(row) }))}
    />
  );
}

function cellsOf(row: UnitRow) {
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
    bar: <ParetoBar row={row} />,
    heat: row.held === '' ? row.heat : <span className={styles.held}>{row.held}</span>,
  };
}
