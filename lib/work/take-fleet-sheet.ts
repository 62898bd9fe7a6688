import { AppError, type Fault } from '@/lib/contract/app-error';
import type { FleetSheetCheck } from '@/lib/contract/fleet-sheet/answer';
import { saveFleet } from '@/lib/store/entities/save-fleet';
import { NO_READING } from '@/lib/store/series/analysis-store';
import { changing } from './changing';
import { type CheckedFleetSheet, checkFleetSheet } from './check-fleet-sheet';
import type { Context } from './context';
import type { TakenFleet } from './save-unit';
import { bringUpToDate } from './take-readings';

export type RegisteredSheet = Omit<TakenFleet, 'isAnalysed'> & { notes: string[]; prices: number };

/**
 * Registers the units of a fleet sheet, all of them or none.
 *
 * @throws AppError 'invalid-input' naming each cell with what is wrong, 'conflict' where somebody else has changed a unit since
 */
export async function registerFleetSheet(context: Context, bytes: Uint8Array): Promise<RegisteredSheet> {
  const checked = await checkFleetSheet(context, bytes);
  if (checked.check.faultCount > 0) throw refused(checked);
  const { fleets, editedFrom, check } = checked;
  const registered = await changing(context, null, async (making) => {
    const done = { added: [] as string[], updated: [] as string[] };
    for (const fleet of fleets) {
      const versions = new Map(fleet.units.map(({ tag }) => [tag, editedFrom.get(tag) ?? null]));
      const saved = await saveFleet(making, { ...fleet, editedFrom: versions, repricedSince: NO_READING });
      if (saved.conflict !== null) throw changedMeanwhile(saved.conflict.tag);
      done.added.push(...saved.added);
      done.updated.push(...saved.updated);
    }
    return done;
  });
  const unchanged = check.units.filter(({ outcome }) => outcome === 'unchanged').map(({ tag }) => tag);
  return { ...registered, unchanged, notes: check.notes, prices: check.prices };
}

/** Registers a fleet sheet and brings results up to date. */
export async function takeFleetSheet(
  context: Context,
  bytes: Uint8Array,
): Promise<RegisteredSheet & TakenFleet> {
  const registered = await registerFleetSheet(context, bytes);
  return { ...registered, isAnalysed: await bringUpToDate(context) };
}

function refused({ check, isConflictOnly }: CheckedFleetSheet): AppError {
  const cells = check.faultCount === 1 ? 'one cell is' : `${check.faultCount} cells are`;
  return isConflictOnly
    ? new AppError(
        'conflict',
        'Nothing was registered: somebody has changed units in the meantime',
        sheetFaults(check),
      )
    : new AppError('invalid-input', `Nothing was registered: ${cells} not valid`, sheetFaults(check));
}

/** Faults as a list names them: `Units!F12 (E-101, Hot inlet temperature)`. */
export function sheetFaults({ faults }: FleetSheetCheck): Fault[] {
  return faults.map(({ sheet, cell, heading, tag, message }) => {
    const what = [tag, heading].filter((part) => part !== null).join(', ');
    const place = cell === null ? sheet : `${sheet}!${cell}`;
    return { field: what === '' ? place : `${place} (${what})`, message };
  });
}

function changedMeanwhile(tag: string): AppError {
  return new AppError('conflict', `Somebody has changed ${tag} at this moment; nothing was registered`, [
    { field: tag, message: 'check the file once more' },
  ]);
}
