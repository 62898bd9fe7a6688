import type { WorkCallOff } from '@/lib/contract/planned';
import { callOffPlanned as callOff } from '@/lib/store/entities/planned';
import type { Context } from './context';
import { changedMeanwhile, openWork } from './known-work';

/**
 * Calls open work off; it is kept, and its calendar entry says so.
 *
 * @throws AppError 'not-found' for unknown work, 'conflict' where it is not open
 */
export async function callOffPlanned(
  context: Context,
  id: number,
  { by, reason }: WorkCallOff,
): Promise<{ tag: string }> {
  const work = await openWork(context, id);
  const change = { kind: 'called-off', by, reason, at: context.now() } as const;
  if (!(await callOff(context.store.entities, { id, change }))) throw changedMeanwhile(work);
  return { tag: work.tag };
}
