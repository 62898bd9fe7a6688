import type { WorkMove } from '@/lib/contract/planned';
import { movePlanned as move } from '@/lib/store/entities/planned';
import { changing } from './changing';
import { checkMove } from './check-move';
import type { Context } from './context';
import { changedMeanwhile } from './known-work';

/** What the work costs where it was moved to, and what it breaks there, in words. */
export type WorkMoved = { tag: string; outage: string | null; cost: number; breaks: string[] };

/**
 * Moves open work to another time; it takes as long as before, and keeps its calendar entry. Where it then lies in an outage of
 * the site it is work of that outage. It is priced anew; what it saves stays as it was projected with the plan.
 *
 * @throws AppError as `checkMove`
 */
export async function movePlanned(context: Context, id: number, asked: WorkMove): Promise<WorkMoved> {
  const { work, moved } = await checkMove(context, id, asked);
  const { by, reason, revision } = asked;
  // It was priced where it lay when this began: one that has been moved since is looked at anew.
  const seen = { id, revision: revision ?? work.revision, change: { kind: 'moved', reason } as const };
  const isDone = await changing(context, by, (making) => move(making, seen, moved));
  if (!isDone) throw await changedMeanwhile(context, work);
  const { outage, cost, breaks } = moved;
  return { tag: work.tag, outage, cost, breaks };
}
