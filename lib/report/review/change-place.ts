import type { ChangeKind } from '@/lib/contract/review';
import { parseUnitAddress, type UnitAddress, unitHref } from '../unit/unit-address';
import type { Change } from './change';

/** Days shown before a change, so that it can be seen as one [days]. */
const LEAD_IN_DAYS = 30;

/** Section of the unit's page that shows a change. */
const PLACES: Record<ChangeKind, string> = {
  'over-limit': 'charts',
  'near-limit': 'charts',
  'below-limit': 'charts',
  'clean-by-sooner': 'charts',
  'clean-by-later': 'charts',
  'no-data': 'left-out',
  'data-worse': 'left-out',
  suspect: 'charts',
  'probable-cleaning': 'cycles',
  cleaned: 'cycles',
};

/** The unit's page at the place that shows a change: the running cycle, or the days around it. */
export function changePlace(
  tag: string,
  { kind, day }: Change,
  { today, units }: { today: number; units: string | null },
): string {
  const address: UnitAddress = { ...parseUnitAddress(tag, {}), units };
  const isOfCycle = PLACES[kind] === 'charts' && kind !== 'suspect';
  const around = { fromDay: Math.min(day ?? today, today) - LEAD_IN_DAYS, toDay: today };
  return unitHref(address, isOfCycle ? { period: 'cycle' } : { period: 'custom', ...around }, PLACES[kind]);
}
