import type { Cleanings } from '@/lib/contract/cleaning-request';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import { withdrawCleaning as withdraw } from '@/lib/store/entities/cleanings';
import { analyse } from './analyse';
import { changing } from './changing';
import type { Context } from './context';
import { cleaningRefused } from './correct-cleaning';
import { knownUnit } from './known-unit';
import { showCleanings } from './read-cleanings';

/**
 * Withdraws a cleaning that was none: its two cycles become one again. It stays in the history; the unit is due for analysis.
 *
 * @throws AppError 'not-found' for an unknown tag or cleaning, 'conflict' where somebody else has changed it
 */
export async function withdrawCleaning(
  context: Context,
  tag: string,
  { id, note, by, revision }: Withdrawal & { id: number },
): Promise<void> {
  const unit = await knownUnit(context, tag);
  const known = { unitId: unit.id, tag, id, revision: revision ?? null };
  const why = await changing(context, by, (making) => withdraw(making, known, note));
  if (why !== null) throw await cleaningRefused(context, unit, { id, why });
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
