import { AppError } from '@/lib/contract/app-error';
import type { Falls } from '@/lib/contract/fall-answers';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import { listCleanings } from '@/lib/store/entities/events';
import { listFallAnswers, withdrawFallAnswer } from '@/lib/store/entities/fall-answers';
import { DAY_MS } from '@/lib/time/calendar-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import { analyse } from './analyse';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { showFalls } from './read-falls';

/**
 * Takes an answer to a fall back, with the cleaning recorded by it: what was said of that day before holds again, or else the
 * fall waits for an answer once more. Answer and cleaning stay in the history.
 *
 * @throws AppError 'not-found' for an unknown tag, and where no answer of that number holds
 */
export async function withdrawAnswer(
  context: Context,
  tag: string,
  { id, note, by }: Withdrawal & { id: number },
): Promise<void> {
  const { id: unitId, site } = await knownUnit(context, tag);
  const { entities, series } = context.store;
  const [answers, cleanings] = await Promise.all([
    listFallAnswers(entities, unitId),
    listCleanings(entities, unitId),
  ]);
  const answer = answers.find((own) => own.id === id && own.withdrawn === null);
  if (answer === undefined) throw new AppError('not-found', `${tag} has no answer ${id} that still holds`);
  const { cleaning, day } = answer;
  await withdrawFallAnswer(entities, { unitId, id, cleaning }, { note, by, at: context.now() });
  const at = cleanings.find((own) => own.id === cleaning)?.at ?? Number.POSITIVE_INFINITY;
  await series.markDue(unitId, Math.min(at, startOfLocalDay(day, site.timeZone)) - DAY_MS);
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
