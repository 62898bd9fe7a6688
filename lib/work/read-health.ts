import type { DataHealth } from '@/lib/contract/data-health';
import { HEALTH_DAYS } from '@/lib/core/pipeline/data-health';
import { healthDocument } from '@/lib/report/health/health-document';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';
import { siteRequest } from './shown-site';

/** Everything the page of data health shows of a site, or of all: stored results and the days they are judged over. */
export async function readHealth(context: Context, site: string | null = null): Promise<FleetRecords> {
  return readFleet(context, {
    lastDays: HEALTH_DAYS,
    isLookingBack: true,
    ...(await siteRequest(context, site)),
  });
}

/** Data health of the fleet, for another program. */
export async function showDataHealth(context: Context): Promise<DataHealth> {
  return healthDocument(await readHealth(context));
}
