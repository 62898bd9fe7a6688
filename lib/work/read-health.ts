import type { DataHealth } from '@/lib/contract/data-health';
import { HEALTH_DAYS } from '@/lib/core/pipeline/data-health';
import { healthDocument } from '@/lib/report/health/health-document';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';

/** Everything the page of data health shows: stored results and the days they are judged over. */
export function readHealth(context: Context): Promise<FleetRecords> {
  return readFleet(context, { lastDays: HEALTH_DAYS, isLookingBack: true });
}

/** Data health of the fleet, for another program. */
export async function showDataHealth(context: Context): Promise<DataHealth> {
  return healthDocument(await readHealth(context));
}
