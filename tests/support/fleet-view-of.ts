import { fleetUnit } from '@/lib/report/fleet/fleet-unit';
import type { FleetAddress } from '@/lib/report/fleet-address';
import { type FleetRow, fleetRow, keysOf } from '@/lib/report/fleet-row';
import { type Fleet, type FleetView, fleetFrame, fleetView, plannedByUnit } from '@/lib/report/fleet-view';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { FleetRecords } from '@/lib/report/records';

/** The fleet page of whole records with all its rows, each through the summary that is kept of it. */
export function fleetViewOf(
  records: FleetRecords,
  address: Pick<FleetAddress, 'back' | 'ahead'>,
  system: UnitSystem,
): FleetView & { rows: FleetRow[] } {
  const units = records.units.map((unit) => {
    const { summary, ...rest } = fleetUnit(unit);
    return { ...rest, summary: JSON.parse(JSON.stringify(summary)) as typeof summary };
  });
  const planned = plannedByUnit(records.planned);
  const fleet: Fleet = { ...records, units, keys: units.map(keysOf), planned, newest: new Map() };
  const frame = fleetFrame(fleet, address);
  const rows = units.map((unit) => fleetRow(unit, frame, planned.get(unit.id)));
  return { ...fleetView(fleet, frame, system), rows };
}
