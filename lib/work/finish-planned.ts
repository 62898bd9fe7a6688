import { AppError } from '@/lib/contract/app-error';
import type { WorkDone, WorkLink } from '@/lib/contract/planned';
import { inSi } from '@/lib/contract/quantity';
import { listCleanings } from '@/lib/store/entities/events';
import { finishPlanned as finish, linkPlanned as link, listPlanned } from '@/lib/store/entities/planned';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { changedMeanwhile, openWork } from './known-work';
import { cleaningFigures } from './record-cleaning';

const MS_PER_SECOND = 1000;

/** The unit that was cleaned, and the number of its cleaning. */
export type WorkFinished = { tag: string; cleaning: number };

/**
 * Marks planned work done: records the cleaning and ties the two together, both or neither. The unit is due for analysis.
 *
 * @throws AppError 'not-found' for unknown work, 'conflict' where it is not open, 'invalid-input' for a time that has not been
 */
export async function finishPlanned(context: Context, id: number, done: WorkDone): Promise<WorkFinished> {
  const work = await openWork(context, id);
  const at = Date.parse(done.at);
  if (at > context.now()) {
    throw new AppError('invalid-input', 'The cleaning lies in the future', [
      { field: 'at', message: 'mark work done once the unit is back in service' },
    ]);
  }
  const { method, cost, duration, note, by } = done;
  const durationMs = duration ? Math.round(inSi(duration, 'duration') * MS_PER_SECOND) : null;
  const stated = { at, method: method || work.method, cost, durationMs, note: note || null };
  const figures = cleaningFigures(await knownUnit(context, work.tag), stated);
  const change = { kind: 'done', by, reason: note || null, at: context.now() } as const;
  const cleaning = await finish(context.store.entities, { id, change }, figures);
  if (cleaning === null) throw changedMeanwhile(work);
  await context.store.series.markDue(work.unitId, at - DAY_MS);
  return { tag: work.tag, cleaning };
}

/**
 * Says that a cleaning recorded elsewhere was this piece of work.
 *
 * @throws AppError 'not-found' for unknown work or a cleaning that is none of its unit, 'conflict' where the work is not open
 *   or the cleaning belongs to other work
 */
export async function linkPlanned(
  context: Context,
  id: number,
  { cleaning, by }: WorkLink,
): Promise<WorkFinished> {
  const work = await openWork(context, id);
  const { entities } = context.store;
  const { tag, unitId } = work;
  const [cleanings, siblings] = await Promise.all([
    listCleanings(entities, unitId),
    listPlanned(entities, { unitId }),
  ]);
  if (!cleanings.some((own) => own.id === cleaning))
    throw new AppError('not-found', `${tag} has no cleaning ${cleaning}`);
  if (siblings.some(({ cleaningId }) => cleaningId === cleaning)) {
    throw new AppError('conflict', `Cleaning ${cleaning} of ${tag} belongs to other planned work already`, [
      { field: 'cleaning', message: 'look at the work list again' },
    ]);
  }
  const change = { kind: 'done', by, reason: 'recorded elsewhere', at: context.now() } as const;
  if (!(await link(entities, { id, change }, cleaning))) throw changedMeanwhile(work);
  return { tag, cleaning };
}
