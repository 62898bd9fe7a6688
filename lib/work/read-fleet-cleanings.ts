import type { FleetCleanings } from '@/lib/contract/fleet-cleanings';
import type { CleaningsAddress } from '@/lib/report/cleanings/cleanings-address';
import { cleaningsDocument } from '@/lib/report/cleanings/cleanings-document';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';
import { siteRequest } from './shown-site';

/** Everything the page of cleanings shows of a site, or of all: stored results without their days. */
export async function readFleetCleanings(
  context: Context,
  site: string | null = null,
): Promise<FleetRecords> {
  return readFleet(context, { lastDays: 0, isLookingBack: true, ...(await siteRequest(context, site)) });
}

/** What the cleanings of a period did, for another program. */
export async function showFleetCleanings(
  context: Context,
  address: CleaningsAddress,
): Promise<FleetCleanings> {
  return cleaningsDocument(await readFleetCleanings(context), address);
}
