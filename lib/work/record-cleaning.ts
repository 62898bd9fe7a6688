import { AppError } from '@/lib/contract/app-error';
import { type CleaningFigures, cleaningAt, saveCleaning } from '@/lib/store/entities/cleanings';
import type { StoredUnit } from '@/lib/store/entities/units';
import { changing } from './changing';
import type { Context } from './context';
import { knownUnit } from './known-unit';

export type CleaningDone = {
  tag: string;
  /** [ms] */
  at: number;
  method?: string | null;
  cost?: number | null;
  durationMs?: number | null;
  note?: string | null;
  /** For whom a program records it. */
  by?: string | null;
  /** True: refused where a cleaning of the unit is recorded at that instant already. */
  isNew?: boolean;
};

/**
 * Records that a unit was cleaned; its cycles from there on are due for analysis.
 *
 * @throws AppError 'not-found' for an unknown tag, 'invalid-input' for a time that cannot be, 'conflict' where it has to be new
 *   and is not
 */
export async function recordCleaning(context: Context, done: CleaningDone): Promise<void> {
  const unit = await knownUnit(context, done.tag);
  if (!Number.isFinite(done.at)) {
    throw new AppError('invalid-input', 'The time of the cleaning is not readable', [
      { field: 'at', message: 'write it as ISO 8601 with offset, such as 2026-05-04T08:00:00+01:00' },
    ]);
  }
  const own = { unitId: unit.id, tag: unit.tag };
  await changing(context, done.by, async (making) => {
    if (done.isNew && (await cleaningAt(making, unit.id, done.at)) !== null) throw recordedAlready(unit);
    await saveCleaning(making, own, cleaningFigures(unit, done));
  });
}

function recordedAlready({ tag }: StoredUnit): AppError {
  return new AppError('conflict', `A cleaning of ${tag} is recorded at that time already`, [
    { field: 'at', message: 'correct that one where something about it is wrong' },
  ]);
}

/** What is kept of a cleaning; method and cost are those of the datasheet where nobody says. */
export function cleaningFigures(
  { unit }: Pick<StoredUnit, 'unit'>,
  { at, method, cost, durationMs, note }: Omit<CleaningDone, 'tag' | 'by' | 'isNew'>,
): CleaningFigures {
  return {
    at,
    method: method ?? unit.cleaning?.method ?? null,
    cost: cost ?? unit.cleaning?.cost ?? null,
    durationMs: durationMs ?? null,
    note: note ?? null,
  };
}
