import type { FleetWindow } from '@/lib/report/fleet/fleet-index';
import { FIRST_ITEMS } from '@/lib/report/fleet/window-size';
import { type FleetAddress, writeFleetAddress } from '@/lib/report/fleet-address';
import { formatNumber } from '@/lib/report/format/figure';
import styles from './fleet.module.css';

/** Ways through a long list for a browser that runs no scripts. */
export function FleetSteps({ address, window }: { address: FleetAddress; window: FleetWindow }) {
  const { from, items, count } = window;
  const end = from + items.length;
  if (from === 0 && end >= count) return null;
  const to = (place: number) => `/?${writeFleetAddress({ ...address, from: place }, new URLSearchParams())}`;
  return (
    <noscript>
      <nav className={styles.steps} aria-label="Parts of the list">
        {from > 0 ? <a href={to(Math.max(0, from - FIRST_ITEMS))}>Earlier rows</a> : null}
        <span>
          {formatNumber(from + 1, 0)} to {formatNumber(end, 0)} of {formatNumber(count, 0)}
        </span>
        {end < count ? <a href={to(end)}>Further rows</a> : null}
      </nav>
    </noscript>
  );
}
