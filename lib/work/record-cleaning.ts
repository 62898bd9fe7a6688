import { AppError } from '@/lib/contract/app-error';
import { type CleaningFigures, saveCleaning } from '@/lib/store/entities/cleanings';
import type { StoredUnit } from '@/lib/store/entities/units';
import { DAY_MS } from '@/lib/time/calendar-day';
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
};

/**
 * Records that a unit was cleaned; its cycles from there on are due for analysis.
 *
 * @throws AppError 'not-found' for an unknown tag, 'invalid-input' for a time that cannot be
 */
export async function recordCleaning(context: Context, done: CleaningDone): Promise<void> {
  const unit = await knownUnit(context, done.tag);
  if (!Number.isFinite(done.at)) {
    throw new AppError('invalid-input', 'The time of the cleaning is not readable', [
      { field: 'at', message: 'write it as ISO 8601 with offset, such as 2026-05-04T08:00:00+01:00' },
    ]);
  }
  const cleaning = { unitId: unit.id, ...cleaningFigures(unit, done) };
  await saveCleaning(context.store.entities, cleaning, context.now());
  // The day of the cleaning is judged anew, whichever zone it is in.
  await context.store.series.markDue(unit.id, done.at - DAY_MS);
}

/** What is kept of a cleaning; method and cost are those of the datasheet where nobody says. */
export function cleaningFigures(
  { unit }: Pick<StoredUnit, 'unit'>,
  { at, method, cost, durationMs, note }: Omit<CleaningDone, 'tag'>,
): CleaningFigures {
  return {
    at,
    method: method ?? unit.cleaning?.method ?? null,
    cost: cost ?? unit.cleaning?.cost ?? null,
    durationMs: durationMs ?? null,
    note: note ?? null,
  };
}
