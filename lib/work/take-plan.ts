import { AppError } from '@/lib/contract/app-error';
import type { PlanAcceptance, WorkList } from '@/lib/contract/planned';
import { acceptPlan } from './accept-plan';
import type { Context } from './context';
import { priceDraft } from './price-draft';
import { showWorkList } from './read-work-list';

/**
 * Takes a schedule on that a page or a program hands in: prices and checks it here, whatever the sender thought of it.
 *
 * @throws AppError 'conflict' naming the clashes, unless they are accepted; 'invalid-input' as `priceDraft` and `acceptPlan`
 */
export async function takePlan(
  context: Context,
  { request, cleanings, by, note, after, acceptClashes }: PlanAcceptance,
): Promise<WorkList & { accepted: number }> {
  const result = await priceDraft(context, request, cleanings);
  if (result.clashes.length > 0 && !acceptClashes) {
    throw new AppError(
      'conflict',
      'The schedule breaks constraints',
      result.clashes.map(({ tags, constraint }) => ({ field: tags.join(', '), message: constraint })),
    );
  }
  const { id } = await acceptPlan(context, { request, result, by, note: note || null, after });
  return { accepted: id, ...(await showWorkList(context)) };
}
