'use client';

import { type ReactNode, useMemo, useRef } from 'react';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { chooseRows, groupRows } from '@/lib/report/fleet-order';
import type { FleetView } from '@/lib/report/fleet-view';
import { countOf } from '@/lib/report/format/words';
import styles from './fleet.module.css';
import { FleetPicture } from './fleet-picture';
import { FleetShow } from './fleet-show';
import { FleetTable } from './fleet-table';
import { FleetToolbar } from './fleet-toolbar';
import { useFleetAddress } from './use-fleet-address';

/** Toolbar and rows: filters, finds, sorts and groups what the server sent, as the address says. */
export function FleetBoard({ view }: { view: FleetView }) {
  const { address, change, isWaiting } = useFleetAddress();
  const firstRow = useRef<() => void>(() => {});
  const rows = useMemo(() => chooseRows(view.rows, address), [view.rows, address]);
  const items = useMemo(() => groupRows(rows, address.group), [rows, address.group]);
  return (
    <div className="print-wide" aria-busy={isWaiting}>
      <FleetHeader
        view={view}
        actions={<FleetShow view={view} shown={rows} address={address} change={change} />}
      />
      <FleetToolbar
        view={view}
        shown={rows}
        address={address}
        change={change}
        onLeaveFind={() => firstRow.current()}
      />
      {rows.length === 0 ? (
        <NothingFound clear={() => change({ states: [], site: null, find: '' })} />
      ) : address.view === 'table' ? (
        <FleetTable view={view} rows={rows} />
      ) : (
        <FleetPicture view={view} items={items} isBySite={address.group === 'site'} focusFirst={firstRow} />
      )}
    </div>
  );
}

function FleetHeader({ view, actions }: { view: FleetView; actions: ReactNode }) {
  const [look, waste] = view.summary;
  const sites = view.sites.length > 1 ? ` at ${countOf(view.sites.length, 'site')}` : ` · ${view.sites[0]}`;
  return (
    <PageHeader
      title="Fleet"
      context={`${countOf(view.rows.length, 'unit')}${sites} · today ${view.today}`}
      actions={actions}
    >
      <p>
        <strong>{look}</strong>
        {waste === undefined ? '.' : `; ${waste}.`}
      </p>
      {view.staleness.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </PageHeader>
  );
}

function NothingFound({ clear }: { clear: () => void }) {
  return (
    <p className={styles.nothing}>
      No unit fits these filters.{' '}
      <button type="button" className={styles.textButton} onClick={clear}>
        Show all units
      </button>
    </p>
  );
}
