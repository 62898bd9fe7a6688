import type { PrismaClient } from '@/generated/sqlite/client';
import type { FallAnswer, FallAnswerRecord } from '@/lib/contract/fall-answers';
import { isoDay } from '@/lib/time/calendar-day';
import type { Making } from './change';
import { type CleaningFigures, type OfUnit, saveCleaning, withdrawCleaning } from './cleanings';
import { withdrawnColumns, withdrawnOf } from './withdrawn';

/** What people said of a unit's falls, oldest first, answers withdrawn among them. */
export async function listFallAnswers(
  entities: Pick<PrismaClient, 'fallAnswer'>,
  unitId: number,
): Promise<FallAnswerRecord[]> {
  const rows = await entities.fallAnswer.findMany({ where: { unitId }, orderBy: { id: 'asc' } });
  return rows.map(answerOf);
}

type Row = Awaited<ReturnType<PrismaClient['fallAnswer']['findUniqueOrThrow']>>;

export function answerOf(row: Row): FallAnswerRecord {
  return {
    id: row.id,
    day: row.day,
    answer: row.answer as FallAnswer,
    note: row.note,
    by: row.givenBy,
    givenAt: row.createdAt.getTime(),
    cleaning: row.cleaningId,
    withdrawn: withdrawnOf(row),
  };
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

export type NewAnswer = {
  unit: OfUnit;
  answer: Pick<FallAnswerRecord, 'day' | 'answer' | 'note'>;
  cleanings: CleaningsAfterAnswer;
  /** Number of the answer about that day that held when this one was given; null where none did. */
  after: number | null;
};

/** Writes an answer down with what it does to the cleanings; false where somebody else has answered in the meantime. */
export async function addFallAnswer(
  making: Making,
  { unit, answer: said, cleanings, after }: NewAnswer,
): Promise<boolean> {
  const { confirmed, refuted } = cleanings;
  const { unitId, tag } = unit;
  const before = standingAnswers(await listFallAnswers(making.transaction, unitId)).find(
    (own) => own.day === said.day,
  );
  if ((before?.id ?? null) !== after) return false;
  if (refuted !== null) {
    const reason = said.note ?? 'the fall was no cleaning';
    await withdrawCleaning(making, { ...unit, id: refuted, revision: null }, reason);
  }
  const cleaningId = confirmed === null ? null : await saveCleaning(making, unit, confirmed);
  await making.transaction.fallAnswer.create({
    data: { ...said, unitId, cleaningId, givenBy: making.by, createdAt: new Date(making.at) },
  });
  await making.record({
    subject: 'fall',
    name: tag,
    action: before === undefined ? 'added' : 'changed',
    before: before === undefined ? null : shown(before),
    after: shown({ ...said, cleaning: cleaningId }),
    note: said.note,
  });
  return true;
}

function shown({ day, answer, cleaning }: Pick<FallAnswerRecord, 'day' | 'answer' | 'cleaning'>) {
  return { day: isoDay(day), answer, cleaning };
}

/** Withdraws an answer, and the cleaning recorded with it; false where it no longer holds. */
export async function withdrawFallAnswer(
  making: Making,
  unit: OfUnit,
  { answer, note }: { answer: FallAnswerRecord; note: string },
): Promise<boolean> {
  const { count } = await making.transaction.fallAnswer.updateMany({
    where: { id: answer.id, unitId: unit.unitId, withdrawnAt: null },
    data: withdrawnColumns(making, note),
  });
  if (count === 0) return false;
  if (answer.cleaning !== null)
    await withdrawCleaning(making, { ...unit, id: answer.cleaning, revision: null }, note);
  const before = shown(answer);
  await making.record({ subject: 'fall', name: unit.tag, action: 'withdrawn', before, note });
  return true;
}
