import { AppError } from '@/lib/contract/app-error';
import type { Verdicts } from '@/lib/contract/verdicts';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import * as entities from '@/lib/store/entities/verdicts';
import { analyse } from './analyse';
import { changing } from './changing';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { showVerdicts } from './read-verdicts';
import { withdrawnAlready } from './withdrawn-already';

/**
 * Withdraws a verdict: its readings are judged by the checks alone again. The verdict stays in the history.
 *
 * @throws AppError 'not-found' for an unknown tag or verdict, 'conflict' where somebody else has withdrawn it
 */
export async function withdrawVerdict(
  context: Context,
  tag: string,
  { id, note, by }: Withdrawal & { id: number },
): Promise<void> {
  const { id: unitId, site } = await knownUnit(context, tag);
  const isDone = await changing(context, by, (making) =>
    entities.withdrawVerdict(making, { unitId, tag, id }, note),
  );
  if (isDone) return;
  const verdicts = await entities.listVerdicts(context.store.entities, unitId);
  const known = verdicts.find((verdict) => verdict.id === id);
  throw known === undefined
    ? new AppError('not-found', `${tag} has no verdict ${id}`)
    : withdrawnAlready(`Verdict ${id} of ${tag}`, known.withdrawn!, site.timeZone);
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
