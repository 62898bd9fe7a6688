import { AppError } from '@/lib/contract/app-error';
import type { FallAnswerRecord, FallAnswerRequest, Falls } from '@/lib/contract/fall-answers';
import type { StepDown } from '@/lib/core/cycles/find-step-downs';
import type { CleaningFigures } from '@/lib/store/entities/cleanings';
import { listCleanings } from '@/lib/store/entities/events';
import { addFallAnswer, listFallAnswers, standingAnswers } from '@/lib/store/entities/fall-answers';
import { findResult } from '@/lib/store/entities/results';
import type { StoredUnit } from '@/lib/store/entities/units';
import { DAY_MS, dayNumber, isoDay } from '@/lib/time/calendar-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import { analyse } from './analyse';
import { changing } from './changing';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { knownUnit } from './known-unit';
import { showFalls } from './read-falls';

/** A cleaning stated further from the gap in the readings than this is not the one behind the fall [days] (own choice). */
const FURTHEST_DAYS = 5;

/**
 * Takes a person's answer to a fall of the fouling. "cleaning" records a cleaning with it, at the time stated or else in the
 * middle of the gap in the readings; "not-cleaning" lets the trend go on across the fall, and withdraws the cleaning that an
 * earlier answer about that day had recorded. The unit is due for analysis.
 *
 * @throws AppError 'not-found' for an unknown tag, 'invalid-input' for a day that is no probable cleaning, naming those that
 *   are, and for a time that cannot be, 'conflict' where somebody else has answered in the meantime
 */
export async function answerFall(context: Context, tag: string, request: FallAnswerRequest): Promise<void> {
  const stored = await knownUnit(context, tag);
  await analyse(context, { tag });
  const day = dayNumber(request.day);
  const asked = await askedAbout(context, stored, day);
  if (request.isFirst && asked.earlier !== null) throw await answeredMeanwhile(context, stored, request.day);
  const confirmed = request.answer === 'cleaning' ? confirmedCleaning(context, stored, request, asked) : null;
  const isTaken = await changing(context, request.by, async (making) => {
    await making.markDue(stored.id, startOfLocalDay(day, stored.site.timeZone) - DAY_MS);
    return addFallAnswer(making, {
      unit: { unitId: stored.id, tag },
      answer: { day, answer: request.answer, note: request.note || null },
      cleanings: { confirmed, refuted: asked.cleaning?.id ?? null },
      after: asked.earlier?.id ?? null,
    });
  });
  if (!isTaken) throw await answeredMeanwhile(context, stored, request.day);
}

function answeredMeanwhile(context: Context, { tag, site }: StoredUnit, day: string): Promise<AppError> {
  return editConflict(context, {
    what: `What was said of the fall of ${tag} on ${day}`,
    timeZone: site.timeZone,
    changes: { subjects: ['fall'], name: tag },
    field: 'day',
  });
}

/** What a day stands for: a fall nobody has explained, or one answered before with the cleaning recorded then. */
type Asked = {
  fall: StepDown | null;
  earlier: FallAnswerRecord | null;
  cleaning: { id: number; at: number } | null;
};

async function askedAbout(context: Context, { id, tag }: StoredUnit, day: number): Promise<Asked> {
  const { entities } = context.store;
  const [known, answers, cleanings] = await Promise.all([
    findResult(entities, id),
    listFallAnswers(entities, id),
    listCleanings(entities, id),
  ]);
  const open = known?.trend.probableCleanings ?? [];
  const fall = open.find((own) => own.day === day) ?? null;
  const earlier = standingAnswers(answers).find((own) => own.day === day) ?? null;
  if (fall === null && earlier === null) throw unknownDay(tag, day, open);
  const cleaning = cleanings.find((own) => own.id === earlier?.cleaning) ?? null;
  return { fall, earlier, cleaning };
}

function unknownDay(tag: string, day: number, open: readonly StepDown[]): AppError {
  const days = open.map((fall) => isoDay(fall.day)).join(', ');
  const message =
    days === '' ? `nothing of ${tag} waits for an answer` : `what waits for an answer is ${days}`;
  return new AppError('invalid-input', `There is no probable cleaning of ${tag} on ${isoDay(day)}`, [
    { field: 'day', message },
  ]);
}

function confirmedCleaning(
  context: Context,
  { unit }: StoredUnit,
  { at, method, cost, note }: FallAnswerRequest,
  { fall, cleaning }: Asked,
): CleaningFigures {
  if (cleaning !== null) {
    throw new AppError('invalid-input', 'This fall has been answered as a cleaning already', [
      { field: 'answer', message: `correct cleaning ${cleaning.id} where something about it is wrong` },
    ]);
  }
  return {
    at: cleanedAt(at ? Date.parse(at) : null, fall, context.now()),
    method: method || (unit.cleaning?.method ?? null),
    cost: cost ?? unit.cleaning?.cost ?? null,
    durationMs: null,
    note: note || null,
  };
}

function cleanedAt(stated: number | null, fall: StepDown | null, now: number): number {
  const refused = (message: string) =>
    new AppError('invalid-input', 'The time of the cleaning cannot be', [{ field: 'at', message }]);
  if (stated === null) {
    if (fall !== null) return Math.round((fall.earliest + fall.latest) / 2);
    throw refused('say when it was cleaned: the trend now goes on across this fall and tells no time');
  }
  if (stated > now) throw refused('record a cleaning once it is done');
  const reach = FURTHEST_DAYS * DAY_MS;
  if (fall !== null && (stated < fall.earliest - reach || stated > fall.latest + reach))
    throw refused(`must lie within ${FURTHEST_DAYS} days of the fall; record another cleaning as one`);
  return stated;
}

/** Takes an answer from another program, which is answered with all falls once the results are up to date. */
export async function takeFallAnswer(
  context: Context,
  tag: string,
  request: FallAnswerRequest,
): Promise<Falls> {
  await answerFall(context, tag, request);
  await analyse(context, { tag });
  return showFalls(context, tag);
}
