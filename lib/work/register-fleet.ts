import { AppError, type Fault } from '@/lib/contract/app-error';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import { faultsOf } from '@/lib/contract/faults';
import { type FleetFile, fleetFileSchema, type Unit } from '@/lib/contract/fleet-file';
import { type SavedUnits, saveFleet } from '@/lib/store/entities/units';
import { NO_READING } from './analyse-unit';
import { cleanTestFaults } from './clean-test';
import type { Context } from './context';

/**
 * Adds or updates the units of a fleet file, all of them or none.
 *
 * @throws AppError 'invalid-input' naming every field of every unit that cannot be
 */
export async function registerFleet(context: Context, document: unknown): Promise<SavedUnits> {
  const fleet = checkFleet(document);
  const saved = await saveFleet(context.store.entities, { ...fleet, at: context.now() });
  for (const id of saved.changedIds) await context.store.series.markDue(id, 0);
  for (const id of saved.repricedIds) await context.store.series.markDue(id, NO_READING);
  return saved;
}

/** A fleet file as given, checked against its schema and the physics behind it. */
export function checkFleet(document: unknown): FleetFile {
  const parsed = fleetFileSchema.safeParse(document);
  if (!parsed.success) throw refused(faultsOf(parsed.error));
  const faults = parsed.data.units.flatMap((unit, index) => unitFaults(unit, `units[${index}]`));
  if (faults.length > 0) throw refused(faults);
  return parsed.data;
}

/** What the physics objects to in one unit; empty when nothing. */
export function unitFaults(unit: Unit, prefix: string): Fault[] {
  const at = `${prefix} (${unit.tag})`;
  const placed = (fault: Fault) => ({ ...fault, field: fault.field === '' ? at : `${at}.${fault.field}` });
  try {
    toExchanger(unit);
    return cleanTestFaults(unit).map(placed);
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
