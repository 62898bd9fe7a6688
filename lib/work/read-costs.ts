import type { FleetCosts } from '@/lib/contract/costs';
import type { EnergyAddress } from '@/lib/report/energy/energy-address';
import { fleetCosts } from '@/lib/report/energy/fleet-costs';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';
import { siteRequest } from './shown-site';

/** Everything the page of energy and money shows of a site (null: of all): stored results with all their days. */
export async function readCosts(context: Context, site: string | null): Promise<FleetRecords> {
  return readFleet(context, { lastDays: null, ...(await siteRequest(context, site)) });
}

/**
 * What fouling costs, for another program.
 *
 * @throws AppError 'not-found' for a site that is not there
 */
export async function showCosts(context: Context, address: EnergyAddress): Promise<FleetCosts> {
  return fleetCosts(await readCosts(context, address.site), address);
}
