import { AppError } from '@/lib/contract/app-error';
import type { Verdicts } from '@/lib/contract/verdicts';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import * as entities from '@/lib/store/entities/verdicts';
import { analyse } from './analyse';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { showVerdicts } from './read-verdicts';

/**
 * Withdraws a verdict: its readings are judged by the checks alone again. The verdict stays in the history.
 *
 * @throws AppError 'not-found' for an unknown tag, and where no verdict of that number holds
 */
export async function withdrawVerdict(
  context: Context,
  tag: string,
  { id, note, by }: Withdrawal & { id: number },
): Promise<void> {
  const { id: unitId } = await knownUnit(context, tag);
  const withdrawal = { note, by, at: context.now() };
  const from = await entities.withdrawVerdict(context.store.entities, { unitId, id }, withdrawal);
  if (from === null) throw new AppError('not-found', `${tag} has no verdict ${id} that still holds`);
  await context.store.series.markDue(unitId, from);
}

/** Withdraws one for another program, which is answered with all of them once the results are up to date. */
export async function takeVerdictWithdrawal(
  context: Context,
  tag: string,
  withdrawal: Withdrawal & { id: number },
): Promise<Verdicts> {
  await withdrawVerdict(context, tag, withdrawal);
  await analyse(context, { tag });
  return showVerdicts(context, tag);
}
