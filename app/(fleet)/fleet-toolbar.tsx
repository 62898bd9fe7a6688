'use client';

import { Pick } from '@/app/ui/choice/pick';
import { StateShape } from '@/app/ui/state-mark/state-mark';
import type { State } from '@/lib/contract/results';
import type { FleetAddress } from '@/lib/report/fleet-address';
import type { FleetView } from '@/lib/report/fleet-view';
import { formatNumber } from '@/lib/report/format/figure';
import { STATE_WORDS } from '@/lib/report/format/words';
import { FindBox } from './find-box';
import styles from './toolbar.module.css';
import type { ChangeAddress } from './use-fleet-address';
import type { LeaveFind } from './use-leave-find';

type Props = {
  view: FleetView;
  /** How many units the filters leave. */
  shown: number;
  address: FleetAddress;
  change: ChangeAddress;
  onLeaveFind: LeaveFind;
};

const SORTS = [
  { value: 'clean-by', label: 'clean-by day' },
  { value: 'money', label: 'money lost' },
  { value: 'health', label: 'data health' },
  { value: 'tag', label: 'tag' },
] as const;
const GROUPS = [
  { value: 'none', label: 'none' },
  { value: 'site', label: 'site' },
  { value: 'service', label: 'service' },
] as const;
const EVERY_SITE = '';
/** Find, filter, sort, group; each change goes into the address. */
export function FleetToolbar({ view, shown, address, change, onLeaveFind }: Props) {
  const sites = [
    { value: EVERY_SITE, label: 'all' },
    ...view.sites.map((site) => ({ value: site, label: site })),
  ];
  return (
    <search className={`${styles.toolbar} screen-only`} aria-label="Fleet">
      <FindBox value={address.find} onFind={(find) => change({ find })} onLeave={onLeaveFind} />
      <StateFilter view={view} address={address} change={change} />
      <Pick label="Sort" options={SORTS} value={address.sort} onPick={(sort) => change({ sort })} />
      <Pick label="Group" options={GROUPS} value={address.group} onPick={(group) => change({ group })} />
      {view.sites.length > 1 ? (
        <Pick
          label="Site"
          options={sites}
          value={address.site ?? EVERY_SITE}
          onPick={(site) => change({ site: site || null })}
        />
      ) : null}
      <span className={styles.count} role="status">
        {shown === view.units ? '' : `${formatNumber(shown, 0)} of ${formatNumber(view.units, 0)} units`}
      </span>
    </search>
  );
}

const FILTER_ORDER: State[] = ['over-limit', 'near-limit', 'no-data', 'fouling', 'clean'];

function StateFilter({ view, address, change }: Pick<Props, 'view' | 'address' | 'change'>) {
  const toggle = (state: State) =>
    change({
      states: address.states.includes(state)
        ? address.states.filter((other) => other !== state)
        : [...address.states, state],
    });
  return (
    <fieldset className={styles.states}>
      <legend className="unseen">Show only units that are</legend>
      {FILTER_ORDER.map((state) => (
        <button
          key={state}
          type="button"
          className={styles.state}
          aria-pressed={address.states.includes(state)}
          disabled={view.counts[state] === 0 && !address.states.includes(state)}
          onClick={() => toggle(state)}
        >
          <StateShape state={state} size={10} />
          {STATE_WORDS[state]} <b>{formatNumber(view.counts[state], 0)}</b>
        </button>
      ))}
    </fieldset>
  );
}
