import type { FleetRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';

/** The local day that the fleet's pages call today: by the clock of its first site. */
export function fleetToday({ sites, now }: Pick<FleetRecords, 'sites' | 'now'>): number {
  return localDay(now, sites[0]?.timeZone ?? 'UTC');
}
