'use client';

import Link from 'next/link';
import { useEffect, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import { StateMark } from '@/app/ui/state-mark/state-mark';
import { type Column, Table } from '@/app/ui/table/table';
import type { FleetRow } from '@/lib/report/fleet-row';
import type { FleetView } from '@/lib/report/fleet-view';
import { toDisplay } from '@/lib/report/format/display-unit';
import { currencySign, formatMoney, formatNumber, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import styles from './fleet.module.css';
import type { FleetRows } from './use-fleet-rows';

/** Rows that are fetched and laid out at once without a wait. */
const ROWS_AT_ONCE = 300;

type Props = { view: FleetView; list: FleetRows; need: (from: number, to: number) => void };

/** The same fleet as figures. */
export function FleetTable({ view, list, need }: Props) {
  const [most, setMost] = useState(ROWS_AT_ONCE);
  const rows = rowsFrom(list, most);
  // Heads of groups take places too, and no row of the table.
  const places = Math.min(list.count, most + list.heads.size);
  // biome-ignore lint/correctness/useExhaustiveDependencies: as parts come, the next is asked for
  useEffect(() => need(0, places), [need, places, list]);
  return (
    <>
      <Table
        caption={`Fleet on ${view.today}: state, clean-by day and losses of each unit`}
        columns={columnsOf(view)}
        rows={rows.map((row) => ({ key: row.site + row.tag, cells: cellsOf(row, view) }))}
        rowHead="tag"
      />
      {rows.length < list.rows ? (
        <p className={styles.nothing}>
          {formatNumber(rows.length, 0)} of {formatNumber(list.rows, 0)} units shown.{' '}
          <Button onClick={() => setMost(rows.length + ROWS_AT_ONCE)}>Show {ROWS_AT_ONCE} more</Button>
        </p>
      ) : null}
    </>
  );
}

/** The rows that are here without a gap from the first on. */
function rowsFrom({ items, count }: FleetRows, most: number): FleetRow[] {
  const rows: FleetRow[] = [];
  const from = items.has(0) ? 0 : Math.min(...items.keys());
  for (let at = from; at < count && rows.length < most; at++) {
    const item = items.get(at);
    if (item === undefined) break;
    if (item.kind === 'row') rows.push(item.row);
  }
  return rows;
}

function columnsOf(view: FleetView): Column[] {
  const cost = view.currency === null ? 'per day' : `${currencySign(view.currency)}/day`;
  return [
    { key: 'tag', head: 'Unit' },
    { key: 'service', head: 'Service' },
    ...(view.sites.length > 1 ? [{ key: 'site', head: 'Site' }] : []),
    { key: 'state', head: 'State' },
    { key: 'used', head: 'Allowance used', unit: '%', isNumber: true },
    { key: 'p10', head: 'Clean by P10', unit: 'projected', isNumber: true },
    { key: 'p50', head: 'P50', unit: 'projected', isNumber: true },
    { key: 'p90', head: 'P90', unit: 'projected', isNumber: true },
    { key: 'words', head: 'In words' },
    { key: 'lost', head: 'Lost duty', unit: view.lostUnit.label, isNumber: true },
    { key: 'cost', head: 'Cost', unit: cost, isNumber: true },
    { key: 'usable', head: 'Usable readings', unit: '%', isNumber: true },
    { key: 'look', head: 'To look at' },
  ];
}

function cellsOf(row: FleetRow, view: FleetView) {
  const isProjected = row.state !== 'over-limit' && row.state !== 'no-data';
  const day = (value: number | null) => (value === null || !isProjected ? MISSING : formatDay(value));
  const share = (value: number | null) => (value === null ? MISSING : formatNumber(100 * value, 0));
  return {
    tag: (
      <Link href={`/units/${encodeURIComponent(row.tag)}`} prefetch={false}>
        {row.tag}
      </Link>
    ),
    service: row.service,
    site: row.site,
    state: <StateMark state={row.state} />,
    used:
      row.usedUncertainty === null
        ? share(row.used)
        : `${share(row.used)} ± ${formatNumber(Math.ceil(100 * row.usedUncertainty), 0)}`,
    p10: day(row.days.p10),
    p50: day(row.days.p50),
    p90: day(row.days.p90),
    words: `${row.cleanBy.main}, ${row.cleanBy.detail}`,
    lost:
      row.lostDuty === null
        ? MISSING
        : formatNumber(toDisplay(row.lostDuty, view.lostUnit), view.lostDecimals),
    cost:
      row.perDay === null
        ? MISSING
        : view.currency === null
          ? formatMoney(row.perDay, row.currency)
          : formatNumber(row.perDay, 0),
    usable: share(row.usable),
    look: [...(row.suspect === null ? [] : [row.suspect]), ...row.probable]
      .map(({ words }) => words)
      .join('; '),
  };
}
