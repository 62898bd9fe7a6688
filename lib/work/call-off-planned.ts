import type { WorkCallOff } from '@/lib/contract/planned';
import { callOffPlanned as callOff } from '@/lib/store/entities/planned';
import { changing } from './changing';
import type { Context } from './context';
import { changedMeanwhile, openWork } from './known-work';

/**
 * Calls open work off; it is kept, and its calendar entry says so.
 *
 * @throws AppError 'not-found' for unknown work, 'conflict' where it is not open or somebody else has changed it
 */
export async function callOffPlanned(
  context: Context,
  id: number,
  { by, reason, revision }: WorkCallOff,
): Promise<{ tag: string }> {
  const work = await openWork(context, id);
  const change = { kind: 'called-off', reason } as const;
  const isDone = await changing(context, by, (making) =>
    callOff(making, { id, revision: revision ?? null, change }),
  );
  if (!isDone) throw await changedMeanwhile(context, work);
  return { tag: work.tag };
}
