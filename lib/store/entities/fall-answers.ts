import type { PrismaClient } from '@/generated/sqlite/client';
import type { FallAnswer, FallAnswerRecord } from '@/lib/contract/fall-answers';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import { type CleaningFigures, saveCleaningIn, withdrawCleaningIn } from './cleanings';
import { withdrawnColumns, withdrawnOf } from './withdrawn';

/** What people said of a unit's falls, oldest first, answers withdrawn among them. */
export async function listFallAnswers(entities: PrismaClient, unitId: number): Promise<FallAnswerRecord[]> {
  const rows = await entities.fallAnswer.findMany({ where: { unitId }, orderBy: { id: 'asc' } });
  return rows.map((row) => ({
    id: row.id,
    day: row.day,
    answer: row.answer as FallAnswer,
    note: row.note,
    by: row.givenBy,
    givenAt: row.createdAt.getTime(),
    cleaning: row.cleaningId,
    withdrawn: withdrawnOf(row),
  }));
}

/** The answer about each day that holds: the last one that was not withdrawn. */
export function standingAnswers<Answer extends Pick<FallAnswerRecord, 'day' | 'withdrawn'>>(
  answers: readonly Answer[],
): Answer[] {
  return [
    ...new Map(
      answers.filter(({ withdrawn }) => withdrawn === null).map((answer) => [answer.day, answer]),
    ).values(),
  ];
}

/** Local days of falls that are no cleaning, by what was last said of them. */
export function explainedFalls(
  answers: readonly Pick<FallAnswerRecord, 'day' | 'answer' | 'withdrawn'>[],
): number[] {
  return standingAnswers(answers)
    .filter(({ answer }) => answer === 'not-cleaning')
    .map(({ day }) => day);
}

/** What an answer does to the cleanings: the one it confirms is recorded, the one an earlier answer had recorded goes. */
export type CleaningsAfterAnswer = { confirmed: CleaningFigures | null; refuted: number | null };

/** Writes an answer down together with what it does to the cleanings: both or neither. */
export async function addFallAnswer(
  entities: PrismaClient,
  {
    unitId,
    answer,
    cleanings,
  }: {
    unitId: number;
    answer: Omit<FallAnswerRecord, 'id' | 'cleaning' | 'withdrawn'>;
    cleanings: CleaningsAfterAnswer;
  },
): Promise<void> {
  const { by, givenAt, ...said } = answer;
  const { confirmed, refuted } = cleanings;
  await entities.$transaction(async (transaction) => {
    if (refuted !== null) {
      const reason = said.note ?? 'the fall was no cleaning';
      await withdrawCleaningIn(transaction, { unitId, id: refuted }, { by, reason, at: givenAt });
    }
    const cleaningId =
      confirmed === null ? null : await saveCleaningIn(transaction, { unitId, ...confirmed }, givenAt);
    await transaction.fallAnswer.create({
      data: { ...said, unitId, cleaningId, givenBy: by, createdAt: new Date(givenAt) },
    });
  });
}

/** Withdraws an answer, and the cleaning recorded with it: both or neither. */
export async function withdrawFallAnswer(
  entities: PrismaClient,
  { unitId, id, cleaning }: { unitId: number } & Pick<FallAnswerRecord, 'id' | 'cleaning'>,
  { by, note, at }: Withdrawal & { at: number },
): Promise<void> {
  await entities.$transaction(async (transaction) => {
    if (cleaning !== null)
      await withdrawCleaningIn(transaction, { unitId, id: cleaning }, { by, reason: note, at });
    await transaction.fallAnswer.updateMany({
      where: { id, unitId, withdrawnAt: null },
      data: withdrawnColumns({ by, note }, at),
    });
  });
}
