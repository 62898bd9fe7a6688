import { AppError } from '@/lib/contract/app-error';
import type { PlannedState } from '@/lib/contract/planned';
import { findPlanned, type StoredPlanned } from '@/lib/store/entities/planned';
import { allResults } from '@/lib/store/entities/results';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { knownUnit } from './known-unit';

const STANDING: Record<PlannedState, string> = {
  open: 'is open',
  done: 'is done already: withdraw or correct its cleaning on the page of the unit',
  'called-off': 'was called off: a cleaning done all the same is recorded on the page of the unit',
};

/** Dated work that waits to be done. @throws AppError 'not-found', 'conflict' where it is done or called off */
export async function openWork(context: Context, id: number): Promise<StoredPlanned> {
  const work = await findPlanned(context.store.entities, id);
  if (work === null) throw new AppError('not-found', `There is no planned work ${id}`);
  if (work.state !== 'open') {
    throw new AppError('conflict', `The work on ${work.tag} ${STANDING[work.state]}`, [
      { field: 'id', message: 'look at the work list again' },
    ]);
  }
  return work;
}

/** That somebody else has changed the work since it was read: who, and what. */
export async function changedMeanwhile(context: Context, { id, tag }: StoredPlanned): Promise<AppError> {
  const { site } = await knownUnit(context, tag);
  return editConflict(context, {
    what: `The work on ${tag}`,
    timeZone: site.timeZone,
    changes: { subjects: ['planned-work'], name: tag, number: id },
  });
}

/** What plans call today: the newest reading of any site, as on their page; never later than the clock. */
export async function planToday(context: Context): Promise<number> {
  const results = [...(await allResults(context.store.entities)).values()];
  const asOf = results.flatMap((stored) => stored.asOf ?? []);
  return asOf.length === 0 ? context.now() : Math.min(context.now(), Math.max(...asOf));
}
