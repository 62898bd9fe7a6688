import { readCleaningsAddress } from '@/lib/report/cleanings/cleanings-address';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import type { Context } from '@/lib/work/context';
import { showCosts } from '@/lib/work/read-costs';
import { showFleetCleanings } from '@/lib/work/read-fleet-cleanings';
import { showDataHealth } from '@/lib/work/read-health';
import { showRecord } from '@/lib/work/read-record';
import { readWorkList } from '@/lib/work/read-work-list';

/** Everything that a database gives to be saved as a file of cells. */
export async function reportDocuments(context: Context) {
  return {
    cleanings: await showFleetCleanings(context, readCleaningsAddress({ period: 'all' })),
    costs: await showCosts(context, readEnergyAddress({ period: 'all' })),
    health: await showDataHealth(context),
    record: await showRecord(context),
    work: await readWorkList(context),
  };
}
