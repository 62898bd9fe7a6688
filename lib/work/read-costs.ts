import type { FleetCosts } from '@/lib/contract/costs';
import type { EnergyAddress } from '@/lib/report/energy/energy-address';
import { fleetCosts } from '@/lib/report/energy/fleet-costs';
import type { FleetRecords } from '@/lib/report/records';
import type { Context } from './context';
import { readFleet } from './read-fleet';

/** Everything the page of energy and money shows: stored results with all their days. */
export function readCosts(context: Context): Promise<FleetRecords> {
  return readFleet(context);
}

/**
 * What fouling costs, for another program.
 *
 * @throws AppError 'not-found' for a site that is not there
 */
export async function showCosts(context: Context, address: EnergyAddress): Promise<FleetCosts> {
  return fleetCosts(await readCosts(context), address);
}
