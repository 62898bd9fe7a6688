import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { FallAnswerRequest } from '@/lib/contract/fall-answers';
import { listCleanings } from '@/lib/store/entities/events';
import { findResult } from '@/lib/store/entities/results';
import { unitIds } from '@/lib/store/entities/units';
import { analyse } from '@/lib/work/analyse';
import { answerFall } from '@/lib/work/answer-fall';
import { correctCleaning } from '@/lib/work/correct-cleaning';
import { showCleanings } from '@/lib/work/read-cleanings';
import { showFalls } from '@/lib/work/read-falls';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { withdrawAnswer } from '@/lib/work/withdraw-answer';
import { withdrawCleaning } from '@/lib/work/withdraw-cleaning';
import { FEW_PLATES } from '../support/clean-records';
import {
  BACK_IN_SERVICE,
  FALL_DAY,
  FALL_RATE,
  FALL_RECORD_END,
  MIDDLE_OF_GAP,
  unitWithFall,
} from '../support/fall-record';
import { DAY_MS, EPOCH, HOUR_MS } from '../support/forward-readings';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const { tag } = FEW_PLATES;

let database: TemporaryDatabase;
let unitId: number;
const opened = async () => {
  const fresh = await temporaryDatabase();
  await unitWithFall(fresh.context);
  return fresh;
};
beforeEach(async () => {
  database = await opened();
  unitId = (await unitIds(database.context.store.entities)).get(tag)!;
});
afterEach(() => database.remove());

const who = { by: 'process engineer', note: 'chemical wash by contractor' };
const answer = async (more: Partial<FallAnswerRequest> = {}) => {
  await answerFall(database.context, tag, { day: FALL_DAY, answer: 'cleaning', ...who, ...more });
  await analyse(database.context);
};
/** Everything stored of the unit's results, without the instant of the computing itself. */
const stored = async ({ context }: TemporaryDatabase = database) => {
  const { entities, series } = context.store;
  const { computedAt: _, ...row } = await entities.unitResult.findUniqueOrThrow({ where: { unitId } });
  return { row, daily: await series.readDaily(unitId) };
};
const trend = async () => (await findResult(database.context.store.entities, unitId))!.trend;
const cleanings = () => listCleanings(database.context.store.entities, unitId);
const began = async () => (await trend()).cycles.map((cycle) => cycle.began);

describe('a fall of the fouling that nobody recorded a cleaning for', () => {
  it('is offered with its day and levels, and the growth is not fitted across it', async () => {
    const { probableCleanings } = await showFalls(database.context, tag);
    expect(probableCleanings).toMatchObject([
      { day: FALL_DAY, lastBefore: '2025-02-04T23:00:00+00:00', firstAfter: '2025-02-05T12:00:00+00:00' },
    ]);
    const [fall] = probableCleanings;
    // The levels are daily medians: half a day's growth off at most, on either side.
    expect(Math.abs(fall!.before - 30 * FALL_RATE)).toBeLessThan(FALL_RATE);
    expect(Math.abs(fall!.after)).toBeLessThan(FALL_RATE);
    expect(await began()).toEqual(['record', 'probable-cleaning']);
  });

  it('answered as a cleaning makes the results those of a recorded cleaning', async () => {
    await answer();
    expect((await cleanings()).map(({ at }) => at)).toEqual([MIDDLE_OF_GAP]);
    expect(await began()).toEqual(['record', 'cleaning']);
    const other = await opened();
    await recordCleaning(other.context, { tag, at: MIDDLE_OF_GAP, note: who.note });
    await analyse(other.context);
    expect(await stored()).toEqual(await stored(other));
    expect(await listCleanings(other.context.store.entities, unitId)).toEqual(await cleanings());
    await other.remove();
  });

  it('answered as no cleaning lets the trend go on across it', async () => {
    await answer({ answer: 'not-cleaning' });
    expect(await cleanings()).toEqual([]);
    expect(await trend()).toMatchObject({ probableCleanings: [], cycles: [{ began: 'record' }] });
  });

  it('takes the time that is stated, where that can be its own', async () => {
    const elsewhere = answer({ at: new Date(BACK_IN_SERVICE - 10 * DAY_MS).toISOString() });
    await expect(elsewhere).rejects.toMatchObject({ code: 'invalid-input', faults: [{ field: 'at' }] });
    expect(await cleanings()).toEqual([]);
    await answer({ at: new Date(BACK_IN_SERVICE).toISOString(), method: 'lance', cost: 900 });
    expect(await cleanings()).toMatchObject([
      { at: BACK_IN_SERVICE, method: 'lance', cost: 900, note: who.note },
    ]);
  });

  it('is not asked about on another day: the error names the days that are', async () => {
    await expect(answer({ day: '2025-01-20' })).rejects.toMatchObject({
      code: 'invalid-input',
      faults: [{ field: 'day', message: expect.stringContaining(FALL_DAY) }],
    });
    await answer();
    await expect(answer({ day: '2025-01-20' })).rejects.toMatchObject({
      faults: [{ message: expect.stringContaining('nothing') }],
    });
  });
});

describe('an answer taken back', () => {
  it('leaves the results as they were, the fall waiting again, and both in the history', async () => {
    const before = await stored();
    for (const said of ['cleaning', 'not-cleaning'] as const) {
      await answer({ answer: said });
      const { id } = (await showFalls(database.context, tag)).answers.at(-1)!;
      const withdrawal = { id, note: 'mixed up two units', by: 'shift lead' };
      await withdrawAnswer(database.context, tag, withdrawal);
      await analyse(database.context);
      expect(await stored()).toEqual(before);
      await expect(withdrawAnswer(database.context, tag, withdrawal)).rejects.toMatchObject({
        code: 'conflict',
        message: expect.stringContaining('withdrawn by shift lead'),
      });
    }
    const { answers } = await showFalls(database.context, tag);
    expect(answers.map(({ answer: said, withdrawn }) => [said, withdrawn?.by])).toEqual([
      ['cleaning', 'shift lead'],
      ['not-cleaning', 'shift lead'],
    ]);
    expect((await showCleanings(database.context, tag)).changes).toMatchObject([
      { kind: 'withdrawn', by: 'shift lead', reason: 'mixed up two units', note: who.note },
    ]);
  });

  it('may be replaced by another: the later one holds', async () => {
    await answer();
    await expect(answer()).rejects.toMatchObject({ faults: [{ field: 'answer' }] });
    await answer({ answer: 'not-cleaning' });
    expect(await cleanings()).toEqual([]);
    expect(await began()).toEqual(['record']);
    // The fall is gone from the trend by then: somebody must know the time.
    await expect(answer()).rejects.toMatchObject({ faults: [{ field: 'at' }] });
    await answer({ at: new Date(BACK_IN_SERVICE).toISOString() });
    expect(await began()).toEqual(['record', 'cleaning']);
  });
});

describe('a recorded cleaning', () => {
  const change = { by: 'shift lead', reason: 'read from the permit' };

  it('is corrected in what is named only, and kept as it was', async () => {
    await answer();
    const [{ id, at } = { id: 0, at: 0 }] = await cleanings();
    const time = new Date(BACK_IN_SERVICE - HOUR_MS).toISOString();
    await correctCleaning(database.context, tag, { id, at: time, cost: null, ...change });
    expect(await cleanings()).toMatchObject([
      { id, at: BACK_IN_SERVICE - HOUR_MS, cost: null, method: 'hot caustic wash', note: who.note },
    ]);
    expect((await analyse(database.context)).analysed).toEqual([tag]);
    expect((await trend()).cycles.at(-1)!.start).toBe(BACK_IN_SERVICE - HOUR_MS);
    const { changes } = await showCleanings(database.context, tag);
    expect(changes).toMatchObject([{ cleaning: id, kind: 'corrected', cost: 4000, ...change }]);
    expect(Date.parse(changes[0]!.at)).toBe(at);
  });

  it('is not moved onto another one, nor into the future', async () => {
    const { context } = database;
    await recordCleaning(context, { tag, at: EPOCH + 10 * DAY_MS });
    await recordCleaning(context, { tag, at: EPOCH + 20 * DAY_MS });
    const [{ id } = { id: 0 }] = await cleanings();
    const move = (at: number) =>
      correctCleaning(context, tag, { id, at: new Date(at).toISOString(), ...change });
    await expect(move(EPOCH + 20 * DAY_MS)).rejects.toMatchObject({ code: 'conflict' });
    await expect(move(FALL_RECORD_END + DAY_MS)).rejects.toMatchObject({ faults: [{ field: 'at' }] });
    expect((await showCleanings(context, tag)).changes).toEqual([]);
  });

  it('is withdrawn, and the fall waits for an answer again', async () => {
    const before = await stored();
    await answer();
    const [{ id } = { id: 0 }] = await cleanings();
    await withdrawCleaning(database.context, tag, { id, by: 'shift lead', note: 'not done' });
    await analyse(database.context);
    expect(await stored()).toEqual(before);
    expect(await showFalls(database.context, tag)).toMatchObject({ probableCleanings: [{ day: FALL_DAY }] });
    await expect(
      withdrawCleaning(database.context, tag, { id, by: 'shift lead', note: 'not done' }),
    ).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining('shift lead') });
    // Answered anew, it is a cleaning with a number of its own.
    await answer();
    expect((await cleanings()).map((cleaning) => cleaning.id > id)).toEqual([true]);
  });

  it('recorded once more at the same instant with other figures is kept as it was, too', async () => {
    const { context } = database;
    const at = EPOCH + 10 * DAY_MS;
    await recordCleaning(context, { tag, at, cost: 100 });
    await recordCleaning(context, { tag, at, cost: 100 });
    expect((await showCleanings(context, tag)).changes).toEqual([]);
    await recordCleaning(context, { tag, at, cost: 200 });
    expect(await showCleanings(context, tag)).toMatchObject({
      cleanings: [{ cost: 200 }],
      changes: [{ cost: 100, kind: 'corrected', by: null, reason: null }],
    });
  });
});
