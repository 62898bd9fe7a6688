import { AppError } from '@/lib/contract/app-error';
import type { Falls } from '@/lib/contract/fall-answers';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import { listFallAnswers, withdrawFallAnswer } from '@/lib/store/entities/fall-answers';
import { DAY_MS } from '@/lib/time/calendar-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import { analyse } from './analyse';
import { changing } from './changing';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { showFalls } from './read-falls';
import { withdrawnAlready } from './withdrawn-already';

/**
 * Takes an answer to a fall back, with the cleaning recorded by it: what was said of that day before holds again, or else the
 * fall waits for an answer once more. Answer and cleaning stay in the history.
 *
 * @throws AppError 'not-found' for an unknown tag or answer, 'conflict' where somebody else has withdrawn it
 */
export async function withdrawAnswer(
  context: Context,
  tag: string,
  { id, note, by }: Withdrawal & { id: number },
): Promise<void> {
  const { id: unitId, site } = await knownUnit(context, tag);
  const find = async () =>
    (await listFallAnswers(context.store.entities, unitId)).find((own) => own.id === id);
  const answer = await find();
  if (answer === undefined) throw new AppError('not-found', `${tag} has no answer ${id}`);
  const isDone = await changing(context, by, async (making) => {
    await making.markDue(unitId, startOfLocalDay(answer.day, site.timeZone) - DAY_MS);
    return withdrawFallAnswer(making, { unitId, tag }, { answer, note });
  });
  if (isDone) return;
  throw withdrawnAlready(`Answer ${id} of ${tag}`, (await find())!.withdrawn!, site.timeZone);
}

/** Takes one back for another program, which is answered with all falls once the results are up to date. */
export async function takeAnswerWithdrawal(
  context: Context,
  tag: string,
  withdrawal: Withdrawal & { id: number },
): Promise<Falls> {
  await withdrawAnswer(context, tag, withdrawal);
  await analyse(context, { tag });
  return showFalls(context, tag);
}
