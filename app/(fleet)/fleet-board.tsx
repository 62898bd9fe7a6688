'use client';

import { type ReactNode, useMemo, useRef } from 'react';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { FleetPageContent } from '@/lib/report/fleet/fleet-index';
import { type FleetAddress, writeFleetAddress } from '@/lib/report/fleet-address';
import type { FleetView } from '@/lib/report/fleet-view';
import { countOf } from '@/lib/report/format/words';
import styles from './fleet.module.css';
import { FleetPicture } from './fleet-picture';
import { FleetShow } from './fleet-show';
import { FleetSteps } from './fleet-steps';
import { FleetTable } from './fleet-table';
import { FleetToolbar } from './fleet-toolbar';
import { useFleetAddress } from './use-fleet-address';
import { useFleetRows } from './use-fleet-rows';
import type { LeaveFind } from './use-leave-find';

type Props = {
  /** JSON of what the page shows: handed over as one text, for the parts of an object would each be written out one by one. */
  text: string;
  asked: FleetAddress;
};

/** Toolbar and rows: the rows of the address, as many as have come; the others come as they are scrolled to. */
export function FleetBoard({ text, asked }: Props) {
  const { view, window } = useMemo(() => JSON.parse(text) as FleetPageContent, [text]);
  const { address, change, isWaiting } = useFleetAddress();
  const query = choiceOf(address);
  const given = useMemo(() => ({ query: choiceOf(asked), window }), [asked, window]);
  const { list, isWaiting: isFetching, need } = useFleetRows(given, query);
  const firstRow = useRef<LeaveFind>(() => {});
  return (
    <div className="print-wide" aria-busy={isWaiting || isFetching}>
      <FleetHeader
        view={view}
        actions={<FleetShow view={view} query={query} address={address} change={change} />}
      />
      <FleetToolbar
        view={view}
        shown={list.rows}
        address={address}
        change={change}
        onLeaveFind={(leaving) => firstRow.current(leaving)}
      />
      <FleetSteps address={asked} window={window} />
      {list.rows === 0 ? (
        <NothingFound clear={() => change({ states: [], site: null, find: '' })} />
      ) : address.view === 'table' ? (
        <FleetTable view={view} list={list} need={need} />
      ) : (
        <FleetPicture
          view={view}
          list={list}
          need={need}
          isFetching={isFetching}
          isBySite={address.group === 'site'}
          leaveFind={firstRow}
        />
      )}
    </div>
  );
}

/** What of an address says which rows there are, how they are drawn and in which order. */
function choiceOf(address: FleetAddress): string {
  return writeFleetAddress({ ...address, view: 'axis', from: 0 }, new URLSearchParams()).toString();
}

function FleetHeader({ view, actions }: { view: FleetView; actions: ReactNode }) {
  const [look, waste] = view.summary;
  const sites = view.sites.length > 1 ? ` at ${countOf(view.sites.length, 'site')}` : ` · ${view.sites[0]}`;
  return (
    <PageHeader
      title="Fleet"
      context={`${countOf(view.units, 'unit')}${sites} · today ${view.today}`}
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
