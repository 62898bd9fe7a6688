import type { PastRecord } from '@/lib/contract/past-record';
import { recordDocument } from '@/lib/report/record/record-document';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';

/** Everything the page of past projections shows: stored results without their days. */
export function readRecord(context: Context): Promise<FleetRecords> {
  return readFleet(context, { lastDays: 0, isLookingBack: true });
}

/** How past projections of the fleet did, for another program. */
export async function showRecord(context: Context): Promise<PastRecord> {
  return recordDocument(await readRecord(context));
}
