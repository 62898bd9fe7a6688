import type { FleetAddress } from '@/lib/report/fleet-address';
import type { FleetPage } from '@/lib/work/read-fleet-page';
import { FleetBoard } from './fleet-board';
import { FleetEmpty } from './fleet-empty';

/** The home page: what a person must look at this week in a sentence, then the fleet on one time axis. */
export function FleetScreen({ page, asked }: { page: FleetPage; asked: FleetAddress }) {
  return page.units === 0 ? <FleetEmpty /> : <FleetBoard text={page.text} asked={asked} />;
}
