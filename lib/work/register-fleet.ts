import { AppError, type Fault } from '@/lib/contract/app-error';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import { faultsOf } from '@/lib/contract/faults';
import { type FleetFile, fleetFileSchema, type Unit } from '@/lib/contract/fleet-file';
import { type FleetToSave, type SavedFleet, saveFleet } from '@/lib/store/entities/save-fleet';
import { NO_READING } from '@/lib/store/series/analysis-store';
import { changing } from './changing';
import { cleanTestFaults } from './clean-test';
import type { Context } from './context';
import { datasheetFaults } from './datasheet-faults';

/**
 * Adds or updates the units of a fleet file, all of them or none; none where one of them is not as it was when somebody began to
 * edit it.
 *
 * @throws AppError 'invalid-input' naming every field of every unit that cannot be
 */
export async function registerFleet(
  context: Context,
  document: unknown,
  editedFrom?: FleetToSave['editedFrom'],
): Promise<SavedFleet> {
  const fleet = checkFleet(document);
  return changing(context, null, (making) =>
    saveFleet(making, { ...fleet, editedFrom, repricedSince: NO_READING }),
  );
}

/** A fleet file as given, checked against its schema and the physics behind it. */
export function checkFleet(document: unknown): FleetFile {
  const parsed = fleetFileSchema.safeParse(document);
  if (!parsed.success) throw refused(faultsOf(parsed.error));
  // Remarks for readers of the file are not kept.
  const { site, units } = parsed.data;
  const faults = units.flatMap((unit, index) => unitFaults(unit, `units[${index}]`));
  if (faults.length > 0) throw refused(faults);
  return { site, units };
}

/** What the physics objects to in one unit; empty when nothing. */
export function unitFaults(unit: Unit, prefix: string): Fault[] {
  const at = `${prefix} (${unit.tag})`;
  const placed = (fault: Fault) => ({ ...fault, field: fault.field === '' ? at : `${at}.${fault.field}` });
  try {
    const exchanger = toExchanger(unit);
    return [...datasheetFaults(unit, exchanger), ...cleanTestFaults(unit)].map(placed);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const faults = error.faults.length > 0 ? error.faults : [{ field: '', message: error.message }];
    return faults.map(placed);
  }
}

function refused(faults: Fault[]): AppError {
  const count = faults.length === 1 ? 'one field is' : `${faults.length} fields are`;
  return new AppError('invalid-input', `Nothing was registered: ${count} not valid`, faults);
}
