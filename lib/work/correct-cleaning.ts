import { AppError } from '@/lib/contract/app-error';
import type { CleaningCorrection, Cleanings } from '@/lib/contract/cleaning-request';
import { inSi, type Quantity } from '@/lib/contract/quantity';
import { type CleaningFigures, correctCleaning as correct } from '@/lib/store/entities/cleanings';
import { DAY_MS } from '@/lib/time/calendar-day';
import { analyse } from './analyse';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { showCleanings } from './read-cleanings';

const MS_PER_SECOND = 1000;

/**
 * Corrects a recorded cleaning: what the correction does not name stays; what it was before stays in the history. The unit is
 * due for analysis.
 *
 * @throws AppError 'not-found' for an unknown tag or cleaning, 'invalid-input' for a time that has not been yet, 'conflict'
 *   where another cleaning of the unit was at that time
 */
export async function correctCleaning(
  context: Context,
  tag: string,
  { id, by, reason, ...corrected }: CleaningCorrection & { id: number },
): Promise<void> {
  const { id: unitId } = await knownUnit(context, tag);
  const now = context.now();
  const figures = figuresOf(corrected);
  if (figures.at !== undefined && figures.at > now) {
    throw new AppError('invalid-input', 'The cleaning lies in the future', [
      { field: 'at', message: 'record a cleaning once it is done' },
    ]);
  }
  const changed = { by, reason, at: now };
  const done = await correct(context.store.entities, { unitId, id }, { figures, changed });
  if (done === 'not-found') throw new AppError('not-found', `${tag} has no cleaning ${id}`);
  if (done === 'taken') {
    throw new AppError('conflict', `Another cleaning of ${tag} is recorded at that time`, [
      { field: 'at', message: 'withdraw the one that was not, then correct the other' },
    ]);
  }
  await context.store.series.markDue(unitId, Math.min(done.before, figures.at ?? done.before) - DAY_MS);
}

function figuresOf({
  at,
  duration,
  ...same
}: Omit<CleaningCorrection, 'by' | 'reason'>): Partial<CleaningFigures> {
  return {
    ...same,
    ...(at === undefined ? {} : { at: Date.parse(at) }),
    ...(duration === undefined ? {} : { durationMs: durationMs(duration) }),
  };
}

function durationMs(duration: Quantity | null): number | null {
  return duration === null ? null : Math.round(inSi(duration, 'duration') * MS_PER_SECOND);
}

/** Corrects one for another program, which is answered with all of them once the results are up to date. */
export async function takeCleaningCorrection(
  context: Context,
  tag: string,
  correction: CleaningCorrection & { id: number },
): Promise<Cleanings> {
  await correctCleaning(context, tag, correction);
  await analyse(context, { tag });
  return showCleanings(context, tag);
}
