import { AppError } from '@/lib/contract/app-error';
import type { CleaningCorrection, Cleanings } from '@/lib/contract/cleaning-request';
import { inSi, type Quantity } from '@/lib/contract/quantity';
import { listChanges } from '@/lib/store/entities/change-records';
import { type CleaningFigures, correctCleaning as correct } from '@/lib/store/entities/cleanings';
import type { StoredUnit } from '@/lib/store/entities/units';
import { analyse } from './analyse';
import { changing } from './changing';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { knownUnit } from './known-unit';
import { showCleanings } from './read-cleanings';

const MS_PER_SECOND = 1000;

/**
 * Corrects a recorded cleaning: what the correction does not name stays; what it was before stays in the history. The unit is
 * due for analysis.
 *
 * @throws AppError 'not-found' for an unknown tag or cleaning, 'invalid-input' for a time that has not been yet, 'conflict'
 *   where another cleaning of the unit was at that time, and where somebody else has changed this one
 */
export async function correctCleaning(
  context: Context,
  tag: string,
  { id, by, reason, revision, ...corrected }: CleaningCorrection & { id: number },
): Promise<void> {
  const unit = await knownUnit(context, tag);
  const now = context.now();
  const figures = figuresOf(corrected);
  if (figures.at !== undefined && figures.at > now) {
    throw new AppError('invalid-input', 'The cleaning lies in the future', [
      { field: 'at', message: 'record a cleaning once it is done' },
    ]);
  }
  const known = { unitId: unit.id, tag, id, revision: revision ?? null };
  const why = await changing(context, by, (making) => correct(making, known, { figures, reason }));
  if (why === 'taken') {
    throw new AppError('conflict', `Another cleaning of ${tag} is recorded at that time`, [
      { field: 'at', message: 'withdraw the one that was not, then correct the other' },
    ]);
  }
  if (why !== null) throw await cleaningRefused(context, unit, { id, why });
}

/** Why a cleaning was not changed: it is none of the unit, or somebody else has changed or withdrawn it. */
export async function cleaningRefused(
  context: Context,
  { tag, site }: StoredUnit,
  { id, why }: { id: number; why: 'not-found' | 'superseded' },
): Promise<AppError> {
  const changes = { subjects: ['cleaning' as const], name: tag, number: id };
  const [last] = await listChanges(context.store.entities, changes, 1);
  if (why === 'not-found' && last?.action !== 'withdrawn')
    return new AppError('not-found', `${tag} has no cleaning ${id}`);
  return editConflict(context, { what: `Cleaning ${id} of ${tag}`, timeZone: site.timeZone, changes });
}

function figuresOf({
  at,
  duration,
  ...same
}: Omit<CleaningCorrection, 'by' | 'reason' | 'revision'>): Partial<CleaningFigures> {
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
