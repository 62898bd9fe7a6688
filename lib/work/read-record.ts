import type { PastRecord } from '@/lib/contract/past-record';
import { recordDocument } from '@/lib/report/record/record-document';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';
import { siteRequest } from './shown-site';

/** Everything the page of past projections shows of a site, or of all: stored results without their days. */
export async function readRecord(context: Context, site: string | null = null): Promise<FleetRecords> {
  return readFleet(context, { lastDays: 0, isLookingBack: true, ...(await siteRequest(context, site)) });
}

/** How past projections of the fleet did, for another program. */
export async function showRecord(context: Context): Promise<PastRecord> {
  return recordDocument(await readRecord(context));
}
