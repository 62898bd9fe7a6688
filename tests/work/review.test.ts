import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { type Review, type ReviewQuery, reviewSchema } from '@/lib/contract/review';
import { review } from '@/lib/report/review/review';
import { findStatement } from '@/lib/store/entities/statements';
import { unitIds } from '@/lib/store/entities/units';
import { isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { analyse } from '@/lib/work/analyse';
import type { Context } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { markReviewLine } from '@/lib/work/mark-review-line';
import { readReview } from '@/lib/work/read-review';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { installed, swingingReadings } from '../support/clean-records';
import { DAY_MS, EPOCH, HOUR_MS } from '../support/forward-readings';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { PLATE_UNIT, PORT } from '../support/unit-records';

/** Fouling reaches the limit of 2e-4 m²·K/W on day 67, so that the unit comes within 30 days of it on day 37. */
const RATE = 3e-6;
const FIRST_REVIEW = 30;
const SECOND_REVIEW = 43;

/** Hourly readings of the first days; a ripple stands for noise, the same whichever days are asked for. */
const readingsUntil = (day: number, rate = RATE) =>
  swingingReadings(day * 24, {
    unitAt: () => installed(PLATE_UNIT),
    foulingAt: (hour) => rate * (hour / 24) + 2e-6 * Math.sin(hour * 12.9898),
    swing: 0.1,
  });

let database: TemporaryDatabase;
let context: Context;
let clock = 0;
const at = (day: number) => EPOCH + day * DAY_MS;
const dayOf = (day: number) => localDay(at(day) - HOUR_MS, PORT.timeZone);
const read = async (query: ReviewQuery): Promise<Review> =>
  reviewSchema.parse(review(await readReview(context, query), 'si'));
const lineOf = ({ units }: Review, tag: string) => units.find((unit) => unit.tag === tag)?.lines ?? [];
const statementOn = async (tag: string, day: number) => {
  const unitId = (await unitIds(context.store.entities)).get(tag)!;
  return findStatement(context.store.entities, { unitId, day: dayOf(day) });
};

beforeAll(async () => {
  database = await temporaryDatabase();
  context = { ...database.context, now: () => clock };
  clock = at(FIRST_REVIEW) + 6 * HOUR_MS;
  const { name, timeZone, currency } = PORT;
  const units = [PLATE_UNIT, { ...PLATE_UNIT, tag: 'HX-2' }];
  await registerFleet(context, { site: { name, timeZone, currency }, units });
  await importColumns(context, 'HX-1', readingsUntil(FIRST_REVIEW));
  await importColumns(context, 'HX-2', readingsUntil(FIRST_REVIEW, RATE / 3));
  await analyse(context);
  clock = at(SECOND_REVIEW) + 6 * HOUR_MS;
  // The readings of the second unit have stopped.
  await importColumns(context, 'HX-1', readingsUntil(SECOND_REVIEW));
  await analyse(context);
}, 120_000);
afterAll(() => database.remove());

// One story, told in order: each step stands on the one before.
describe('a review of two weeks', () => {
  it('compares with what was said on its day', async () => {
    const since = isoDay(dayOf(FIRST_REVIEW));
    const given = await read({ since });
    expect(given).toMatchObject({ since, today: isoDay(dayOf(SECOND_REVIEW)) });
    expect(given.counts).toMatchObject({ units: 2, act: 2, unchanged: 0 });
    const [first] = given.units;
    expect(first).toMatchObject({
      tag: 'HX-1',
      before: { state: 'fouling', isAfterwards: false },
      now: { state: 'near-limit' },
    });
    expect(Date.parse(first!.before.computedAt)).toBe(at(FIRST_REVIEW) + 6 * HOUR_MS);
    expect(lineOf(given, 'HX-1').map(({ kind }) => kind)).toEqual(['near-limit']);
    expect(lineOf(given, 'HX-2')).toMatchObject([
      { kind: 'no-data', key: `no-data@${isoDay(dayOf(FIRST_REVIEW) + 1)}`, urgency: 'act' },
    ]);
    expect(given.notices.join(' ')).not.toContain('afterwards');
  });

  it('looks back a week where nobody says otherwise, and owns up to what it worked out afterwards', async () => {
    const given = await read({});
    expect(given.since).toBe(isoDay(dayOf(SECOND_REVIEW) - 7));
    expect(given.units.every(({ before }) => before.isAfterwards)).toBe(true);
    expect(given.notices.join(' ')).toContain('was not kept. It was worked out afterwards');
  });

  it('works a day out with what was known up to it, once, and again when the unit has new results', async () => {
    const since = isoDay(dayOf(27));
    const said = async () => (await read({ since })).units[0]!.before;
    const first = await said();
    expect(first).toMatchObject({ day: since, state: 'fouling', isAfterwards: true });
    // 27 days at the rate of the truth.
    expect(first.allowanceUsed).toBeCloseTo((27 * RATE) / 2e-4, 1);
    clock += HOUR_MS;
    expect((await said()).computedAt).toBe(first.computedAt);
    await analyse(context, { all: true });
    expect((await said()).computedAt).not.toBe(first.computedAt);
  });

  it('works it out once for all who ask at the same time', async () => {
    clock += HOUR_MS;
    await analyse(context, { all: true });
    const { store } = context;
    const readDaily = vi.spyOn(store.series, 'readDaily');
    const since = isoDay(dayOf(27));
    const given = await Promise.all([read({ since }), read({ since }), read({ since })]);
    expect(readDaily).toHaveBeenCalledTimes(2);
    readDaily.mockRestore();
    for (const { units } of given) expect(units).toEqual(given[0]!.units);
  });

  it('never puts what was worked out afterwards in place of what was said', async () => {
    const said = await statementOn('HX-1', FIRST_REVIEW);
    await analyse(context, { asOf: at(FIRST_REVIEW) });
    expect(await statementOn('HX-1', FIRST_REVIEW)).toEqual(said);
    await analyse(context);
  });

  it('tells of a cleaning in place of the state and the clean-by day that it changed', async () => {
    const cleanedAt = at(SECOND_REVIEW - 6);
    await recordCleaning(context, { tag: 'HX-1', at: cleanedAt, method: 'caustic wash' });
    await analyse(context);
    const given = await read({ since: isoDay(dayOf(FIRST_REVIEW)) });
    const kinds = lineOf(given, 'HX-1').map(({ kind }) => kind);
    expect(kinds).toContain('cleaned');
    expect(kinds.filter((kind) => kind.startsWith('clean-by'))).toEqual([]);
  });
});

describe('marks', () => {
  const since = isoDay(dayOf(FIRST_REVIEW));
  const line = `no-data@${isoDay(dayOf(FIRST_REVIEW) + 1)}`;
  const mark = (kind: 'note' | 'assigned' | 'seen' | 'reopened', text: string | null = null) =>
    markReviewLine(context, { tag: 'HX-2', line, kind, by: 'Shift B', text });

  it('stick to their line in every review that lists it', async () => {
    await mark('assigned', 'Instrument crew');
    await mark('note', 'cable cut at the crossing');
    await mark('seen');
    for (const day of [since, isoDay(dayOf(FIRST_REVIEW) + 1)]) {
      expect(lineOf(await read({ since: day }), 'HX-2')).toMatchObject([
        {
          isSeen: true,
          assignedTo: 'Instrument crew',
          marks: [{ kind: 'assigned' }, { kind: 'note', by: 'Shift B' }, { kind: 'seen', text: null }],
        },
      ]);
    }
  });

  it('filter the list, but not the counts', async () => {
    const unseen = await read({ since, show: 'unseen' });
    expect(lineOf(unseen, 'HX-2')).toEqual([]);
    expect(unseen.counts).toMatchObject({ units: 2, seen: 1 });
    const tags = async (assigned: string) => (await read({ since, assigned })).units.map(({ tag }) => tag);
    expect(await tags('Instrument crew')).toEqual(['HX-2']);
    expect(await tags('nobody')).toEqual(['HX-1']);
  });

  it('are taken back by a further one', async () => {
    await mark('reopened');
    const [given] = lineOf(await read({ since }), 'HX-2');
    expect(given).toMatchObject({ isSeen: false });
    expect(given!.marks).toHaveLength(4);
  });

  it('are refused for a unit, and a review for a site, that is not there', async () => {
    const unknown = { tag: 'HX-9', line, kind: 'seen', by: 'Shift B' } as const;
    await expect(markReviewLine(context, unknown)).rejects.toThrow('There is no unit "HX-9"');
    await expect(readReview(context, { site: 'Nowhere' })).rejects.toThrow('There is no site "Nowhere"');
  });
});
