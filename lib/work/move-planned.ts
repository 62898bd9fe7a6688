import { AppError } from '@/lib/contract/app-error';
import type { WorkMove } from '@/lib/contract/planned';
import { listOutages } from '@/lib/store/entities/events';
import { movePlanned as move, type StoredPlanned } from '@/lib/store/entities/planned';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { changedMeanwhile, openWork, planToday } from './known-work';

/**
 * Moves open work to another time; it takes as long as before, and keeps its calendar entry. Where it then lies in an outage of
 * the site it is work of that outage.
 *
 * @throws AppError 'not-found' for unknown work, 'conflict' where it is not open, 'invalid-input' for a time that is past or
 *   where it stands already
 */
export async function movePlanned(
  context: Context,
  id: number,
  { from: stated, by, reason }: WorkMove,
): Promise<{ tag: string }> {
  const work = await openWork(context, id);
  const from = Date.parse(stated);
  const to = from + work.to - work.from;
  if (from === work.from) throw refused('it stands there already');
  if (from < (await planToday(context)))
    throw refused('it lies in the past; mark work that was done as done');
  const change = { kind: 'moved', by, reason, at: context.now() } as const;
  const outage = await outageAround(context, work, { from, to });
  if (!(await move(context.store.entities, { id, change }, { from, to, outage })))
    throw changedMeanwhile(work);
  return { tag: work.tag };
}

function refused(message: string): AppError {
  return new AppError('invalid-input', 'The work cannot be moved there', [{ field: 'from', message }]);
}

async function outageAround(
  context: Context,
  { tag }: StoredPlanned,
  { from, to }: { from: number; to: number },
): Promise<string | null> {
  const { site } = await knownUnit(context, tag);
  const outages = await listOutages(context.store.entities);
  const around = outages.find((own) => own.siteId === site.id && own.from <= from && to <= own.to);
  return around?.name ?? null;
}
