import { AppError } from '@/lib/contract/app-error';
import type { Cleanings } from '@/lib/contract/cleaning-request';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import { withdrawCleaning as withdraw } from '@/lib/store/entities/cleanings';
import { DAY_MS } from '@/lib/time/calendar-day';
import { analyse } from './analyse';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { showCleanings } from './read-cleanings';

/**
 * Withdraws a cleaning that was none: its two cycles become one again. It stays in the history; the unit is due for analysis.
 *
 * @throws AppError 'not-found' for an unknown tag or cleaning
 */
export async function withdrawCleaning(
  context: Context,
  tag: string,
  { id, note, by }: Withdrawal & { id: number },
): Promise<void> {
  const { id: unitId } = await knownUnit(context, tag);
  const changed = { by, reason: note, at: context.now() };
  const at = await withdraw(context.store.entities, { unitId, id }, changed);
  if (at === null) throw new AppError('not-found', `${tag} has no cleaning ${id}`);
  await context.store.series.markDue(unitId, at - DAY_MS);
}

/** Withdraws one for another program, which is answered with all of them once the results are up to date. */
export async function takeCleaningWithdrawal(
  context: Context,
  tag: string,
  withdrawal: Withdrawal & { id: number },
): Promise<Cleanings> {
  await withdrawCleaning(context, tag, withdrawal);
  await analyse(context, { tag });
  return showCleanings(context, tag);
}
