import type { FleetView } from '@/lib/report/fleet-view';
import { FleetBoard } from './fleet-board';
import { FleetEmpty } from './fleet-empty';

/** The home page: what a person must look at this week in a sentence, then the fleet on one time axis. */
export function FleetScreen({ view }: { view: FleetView }) {
  return view.rows.length === 0 ? <FleetEmpty /> : <FleetBoard view={view} />;
}
