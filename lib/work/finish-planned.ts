import { AppError } from '@/lib/contract/app-error';
import type { WorkDone, WorkLink } from '@/lib/contract/planned';
import { inSi } from '@/lib/contract/quantity';
import { listCleanings } from '@/lib/store/entities/events';
import {
  finishPlanned as finish,
  linkPlanned as link,
  type NotDone,
  type StoredPlanned,
} from '@/lib/store/entities/planned';
import { acceptedAt } from '@/lib/store/entities/plans';
import { DAY_MS } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import { analyse } from './analyse';
import { changing } from './changing';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { changedMeanwhile, openWork } from './known-work';
import { cleaningFigures } from './record-cleaning';

const MS_PER_SECOND = 1000;
/** Work may have been done this long before its plan was accepted, and no earlier [ms] (own choice). */
const BEFORE_PLAN_MS = 60 * DAY_MS;
/** A cleaning recorded elsewhere can have been work planned this near to it [ms] (own choice). */
const LINK_REACH_MS = 60 * DAY_MS;

/** The unit that was cleaned, and the number of its cleaning. */
export type WorkFinished = { tag: string; cleaning: number };

/**
 * Marks planned work done: records the cleaning and ties the two together, both or neither. The unit is due for analysis.
 *
 * @throws AppError 'not-found' for unknown work, 'conflict' where it is not open or a cleaning is recorded at that time,
 *   'invalid-input' for a time that cannot be
 */
export async function finishPlanned(context: Context, id: number, done: WorkDone): Promise<WorkFinished> {
  const work = await openWork(context, id);
  const at = Date.parse(done.at);
  await checkTime(context, work, at);
  const { method, cost, duration, note, by, revision } = done;
  const durationMs = duration ? Math.round(inSi(duration, 'duration') * MS_PER_SECOND) : null;
  const stated = { at, method: method || work.method, cost, durationMs, note: note || null };
  const figures = cleaningFigures(await knownUnit(context, work.tag), stated);
  const seen = { id, revision: revision ?? null, change: { kind: 'done', reason: note || null } as const };
  const cleaning = await changing(context, by, (making) => finish(making, seen, figures));
  if (typeof cleaning !== 'number') throw await notDone(context, work, cleaning);
  return { tag: work.tag, cleaning };
}

/** Marks work done for another program: its unit's results are brought up to date. */
export async function takeWorkDone(context: Context, id: number, done: WorkDone): Promise<WorkFinished> {
  const finished = await finishPlanned(context, id, done);
  await analyse(context, { tag: finished.tag });
  return finished;
}

/** A cleaning has been, and neither before the unit's first reading nor long before the work was planned. */
async function checkTime(
  context: Context,
  { planId, tag, unitId }: StoredPlanned,
  at: number,
): Promise<void> {
  const refused = (title: string, message: string) =>
    new AppError('invalid-input', title, [{ field: 'at', message }]);
  if (at > context.now())
    throw refused('The cleaning lies in the future', 'mark work done once the unit is back in service');
  const { store } = context;
  const [planned, span, { site }] = await Promise.all([
    acceptedAt(store.entities, planId),
    store.series.readingSpan(unitId),
    knownUnit(context, tag),
  ]);
  const day = (instant: number) => isoInZone(instant, site.timeZone).slice(0, 'YYYY-MM-DD'.length);
  if (span !== null && at < span.first)
    throw refused(
      `The cleaning lies before the first reading of ${tag}, ${day(span.first)}`,
      'state when the unit came back into service',
    );
  if (at < planned - BEFORE_PLAN_MS)
    throw refused(
      `The cleaning lies long before the work was planned on ${day(planned)}`,
      'record a cleaning of earlier on the page of its unit',
    );
}

/**
 * Says that a cleaning recorded elsewhere was this piece of work.
 *
 * @throws AppError 'not-found' for unknown work or a cleaning that is none of its unit, 'conflict' where the work is not open
 *   or the cleaning belongs to other work, 'invalid-input' for a cleaning far from the time the work was planned for
 */
export async function linkPlanned(
  context: Context,
  id: number,
  { cleaning, by, revision }: WorkLink,
): Promise<WorkFinished> {
  const work = await openWork(context, id);
  const { entities } = context.store;
  const { tag, unitId, from, to } = work;
  const known = (await listCleanings(entities, unitId)).find((own) => own.id === cleaning);
  if (known === undefined) throw new AppError('not-found', `${tag} has no cleaning ${cleaning}`);
  if (known.at < from - LINK_REACH_MS || known.at > to + LINK_REACH_MS) {
    const days = LINK_REACH_MS / DAY_MS;
    throw new AppError('invalid-input', `Cleaning ${cleaning} of ${tag} is far from the planned time`, [
      {
        field: 'cleaning',
        message: `it must lie within ${days} days of it; move the work or call it off`,
      },
    ]);
  }
  const seen = {
    id,
    revision: revision ?? null,
    change: { kind: 'done', reason: 'recorded elsewhere' } as const,
  };
  const linked = await changing(context, by, (making) => link(making, seen, cleaning));
  if (typeof linked !== 'number') throw await notDone(context, work, linked);
  return { tag, cleaning };
}

/** Ties work to a cleaning for another program: its unit's results are brought up to date. */
export async function takeWorkLink(context: Context, id: number, asked: WorkLink): Promise<WorkFinished> {
  const linked = await linkPlanned(context, id, asked);
  await analyse(context, { tag: linked.tag });
  return linked;
}

async function notDone(context: Context, work: StoredPlanned, why: NotDone): Promise<AppError> {
  if (why === 'not-open') return changedMeanwhile(context, work);
  if (why === 'claimed') {
    return new AppError('conflict', `That cleaning of ${work.tag} belongs to other planned work already`, [
      { field: 'cleaning', message: 'look at the work list again' },
    ]);
  }
  return new AppError('conflict', `A cleaning of ${work.tag} at that time was recorded already`, [
    {
      field: 'at',
      message: `if it was this work, choose “This was it” (cleaning ${why.recorded}); else state another time`,
    },
  ]);
}
