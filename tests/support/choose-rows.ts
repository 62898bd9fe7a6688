import { type FleetChoice, findRows, sortRows } from '@/lib/report/fleet-order';
import type { FleetKeys } from '@/lib/report/fleet-row';

/** The rows an address asks for: found, then sorted. */
export function chooseRows<Row extends FleetKeys>(rows: readonly Row[], choice: FleetChoice): Row[] {
  return sortRows(findRows(rows, choice), choice.sort);
}
