import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { basisAt } from '@/lib/core/fouling/evaluate-over';
import { listReferences } from '@/lib/store/entities/references';
import { findResult } from '@/lib/store/entities/results';
import { unitIds } from '@/lib/store/entities/units';
import { acceptReference } from '@/lib/work/accept-reference';
import { analyse } from '@/lib/work/analyse';
import { importColumns } from '@/lib/work/import-readings';
import { proposeReference } from '@/lib/work/propose-reference';
import { readReference } from '@/lib/work/read-reference';
import { readUnit } from '@/lib/work/read-unit';
import { recordCleaning } from '@/lib/work/record-cleaning';
import {
  FEW_PLATES,
  installed,
  registerAtPort,
  swingingReadings,
  unitWithReadings,
} from '../support/clean-records';
import { DAY_MS, EPOCH } from '../support/forward-readings';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const DAYS = 30;
const CLEANED_DAY = 20;
const CLEANED_AT = EPOCH + CLEANED_DAY * DAY_MS;
const RATE = 1.5e-6 / 24;
const { tag } = FEW_PLATES;
const WHO = { acceptedBy: 'process engineer', reason: 'acid wash, inspected clean', after: 0 };
/** What the unit really has, beside its datasheet. */
const FILMS = { hot: 1.3, wall: 1, cold: 0.8 };

let database: TemporaryDatabase;
beforeEach(async () => {
  database = await temporaryDatabase();
});
afterEach(() => database.remove());

const idOf = async () => (await unitIds(database.context.store.entities)).get(tag)!;
const references = async () => listReferences(database.context.store.entities, await idOf());
const result = async () => (await findResult(database.context.store.entities, await idOf()))!;

type Record = { unit: Unit; factors: typeof FILMS; swing: number; load: number; days: number };
const made = new Map<string, ReturnType<typeof swingingReadings>>();

/** Readings with factors on the clean resistances; fouling grows from 0 at the cleaning. Made once for each of the few records. */
function readingsWith({ unit, factors, swing, load, days }: Record) {
  const key = JSON.stringify([unit.hot, factors, swing, load, days]);
  const real = installed(unit, factors);
  const readings =
    made.get(key) ??
    swingingReadings(days * 24, {
      unitAt: () => real,
      foulingAt: (hour) => (hour < CLEANED_DAY * 24 ? 1e-4 : RATE * (hour - CLEANED_DAY * 24)),
      swing,
      load,
      noise: 0.004,
    });
  made.set(key, readings);
  return readings;
}

/** A unit with such a record, one cleaning recorded, analysed. */
async function record(unit: Unit, factors = FILMS, { swing = 0.3, load = 1, days = DAYS } = {}) {
  await unitWithReadings(database.context, unit, readingsWith({ unit, factors, swing, load, days }));
  await recordCleaning(database.context, { tag, at: CLEANED_AT });
  await analyse(database.context);
}

describe('a clean reference by two films', () => {
  it('is proposed with its evidence and its effect, and stores nothing', async () => {
    await record(FEW_PLATES);
    const proposed = await proposeReference(database.context, tag, { method: 'two-films' });
    expect(proposed.period).toEqual({ from: CLEANED_AT, to: CLEANED_AT + 5 * DAY_MS });
    expect(proposed.from).toBe(CLEANED_AT);
    const { factors, refusal, evidence } = proposed.learned;
    expect(refusal).toBeNull();
    expect(evidence!.readings).toBe(120);
    // The fouling of two and a half days, 3 % of a film, is in the films too.
    expect(Math.abs(factors!.hot - FILMS.hot)).toBeLessThan(0.05);
    expect(Math.abs(factors!.cold - FILMS.cold)).toBeLessThan(0.05);
    expect(proposed.effect!.before.foulingResistance).not.toBe(proposed.effect!.after.foulingResistance);
    expect(await references()).toEqual([]);
  });

  it('once accepted changes the results from its time on, exactly as proposed', async () => {
    await record(FEW_PLATES);
    const before = await database.context.store.series.readDaily(await idOf());
    const proposed = await proposeReference(database.context, tag, { method: 'two-films' });
    const accepted = await acceptReference(database.context, tag, { method: 'two-films', ...WHO });
    expect(accepted).toMatchObject({
      number: 1,
      from: CLEANED_AT,
      method: 'two-films',
      ...{ acceptedBy: WHO.acceptedBy },
    });
    const { trend, basis } = await result();
    expect(trend).toEqual(proposed.effect!.after);
    expect(basis.map(({ from, reference }) => [from, reference])).toEqual([
      [0, null],
      [CLEANED_AT, 1],
    ]);
    const after = await database.context.store.series.readDaily(await idOf());
    expect(after.foulingResistance.slice(0, CLEANED_DAY)).toEqual(
      before.foulingResistance.slice(0, CLEANED_DAY),
    );
    const unit = (await readUnit(database.context, tag, { from: null, to: null }))!;
    expect(basisAt(unit.bases, CLEANED_AT).cleanFactors).toEqual(accepted.factors);
    expect(basisAt(unit.bases, CLEANED_AT - 1).cleanFactors.hot).toBe(1);
    // Errors that the reference shares with today's readings cancel; the trend must know.
    expect(unit.record.exchanger.clean).toBe('learned');
    expect((await analyse(database.context)).analysed).toEqual([]);
  });

  it('is refused where the flows varied too little, with what is needed', async () => {
    await record(FEW_PLATES, FILMS, { swing: 0.03 });
    const accepting = acceptReference(database.context, tag, { method: 'two-films', ...WHO });
    await expect(accepting).rejects.toMatchObject({
      code: 'invalid-input',
      faults: [{ field: 'method', message: expect.stringMatching(/varied too little.*condition index/) }],
    });
    expect(await references()).toEqual([]);
  });
});

describe('references of a unit', () => {
  it('are all kept: a newer one takes the place of an older one', async () => {
    await record(FEW_PLATES);
    await acceptReference(database.context, tag, { method: 'scale', ...WHO });
    const first = (await result()).trend.foulingResistance;
    await acceptReference(database.context, tag, { method: 'datasheet', from: null, ...WHO, after: 1 });
    const kept = await references();
    expect(kept.map(({ number, method, from }) => [number, method, from])).toEqual([
      [1, 'scale', CLEANED_AT],
      [2, 'datasheet', null],
    ]);
    expect((await result()).trend.foulingResistance).not.toBe(first);
    expect((await result()).basis.map(({ reference }) => reference)).toEqual([2]);
  });

  it('are not accepted over one that somebody else has accepted since', async () => {
    await record(FEW_PLATES);
    await acceptReference(database.context, tag, { method: 'scale', ...WHO });
    await expect(acceptReference(database.context, tag, { method: 'scale', ...WHO })).rejects.toMatchObject({
      code: 'conflict',
    });
    const both = await Promise.allSettled([
      acceptReference(database.context, tag, { method: 'scale', ...WHO, after: 1 }),
      acceptReference(database.context, tag, { method: 'datasheet', ...WHO, after: 1 }),
    ]);
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect((await references()).map(({ number }) => number)).toEqual([1, 2]);
  });

  it('are not learned across a change of the equipment, nor from the future', async () => {
    await record(FEW_PLATES);
    const validFrom = new Date(CLEANED_AT + 2 * DAY_MS).toISOString();
    await registerAtPort(database.context, { ...FEW_PLATES, service: 'changed', validFrom });
    await expect(proposeReference(database.context, tag, { method: 'scale' })).rejects.toMatchObject({
      faults: [{ field: 'learnFrom', message: expect.stringContaining('datasheet version 2') }],
    });
    const later = new Date(database.context.now() + DAY_MS).toISOString();
    await expect(
      proposeReference(database.context, tag, { method: 'datasheet', from: later }),
    ).rejects.toMatchObject({ faults: [{ field: 'from' }] });
  });

  it('need enough readings, and a clean test where one is asked for', async () => {
    await record(FEW_PLATES);
    const day = { from: new Date(EPOCH).toISOString(), to: new Date(EPOCH + DAY_MS / 2).toISOString() };
    const short = await proposeReference(database.context, tag, { method: 'scale', learnFrom: day });
    expect(short.learned.refusal).toEqual({ kind: 'too-few-readings' });
    const test = await proposeReference(database.context, tag, { method: 'test' });
    expect(test.learned.refusal).toEqual({ kind: 'no-test' });
    expect(test.effect).toBeNull();
  });
});

describe('a unit whose datasheet says "learned"', () => {
  const learned: Unit = { ...FEW_PLATES, clean: 'learned' };
  const scaled = { hot: 1.1, wall: 1.1, cold: 1.1 };

  it('keeps the factor it worked out as a reference of its own', async () => {
    await record(learned, scaled);
    const [automatic, ...more] = await references();
    expect(more).toEqual([]);
    expect(automatic).toMatchObject({
      number: 1,
      from: null,
      method: 'scale',
      acceptedBy: 'worked out automatically',
      reason: 'median of 120 readings after the cleaning of 26 Jan 2025',
      evidence: { from: CLEANED_AT, readings: 120 },
    });
    expect(Math.abs(automatic!.factors.hot - 1.1)).toBeLessThan(0.02);
    expect((await result()).basis[0]).toMatchObject({ reference: 1, cleanFactors: automatic!.factors });
    await analyse(database.context, { all: true });
    expect(await references()).toHaveLength(1);
  });

  it('writes none while the days it learns from are not over, but uses what it has', async () => {
    await record(learned, scaled, { days: CLEANED_DAY + 3 });
    expect(await references()).toEqual([]);
    const [basis] = (await result()).basis;
    expect(basis!.reference).toBeNull();
    expect(basis!.cleanFactors.hot).toBeGreaterThan(1.05);
  });

  it('writes a further one when late data changes it, and keeps the first', async () => {
    await record(learned, scaled);
    const late = swingingReadings(24, {
      unitAt: () => installed(FEW_PLATES, { hot: 1.3, wall: 1.3, cold: 1.3 }),
      foulingAt: () => 0,
    });
    late.time.forEach((time, i) => {
      late.time[i] = time + CLEANED_DAY * DAY_MS + DAY_MS;
    });
    await importColumns(database.context, tag, late);
    await analyse(database.context);
    const kept = await references();
    expect(kept.map(({ number }) => number)).toEqual([1, 2]);
    expect(kept[1]!.factors.hot).not.toBe(kept[0]!.factors.hot);
    expect((await result()).basis[0]!.reference).toBe(2);
  });

  it('gives way to what a person accepts, and holds on before it', async () => {
    await record(learned, scaled);
    await acceptReference(database.context, tag, {
      method: 'datasheet',
      from: new Date(CLEANED_AT).toISOString(),
      ...WHO,
    });
    expect((await result()).basis.map(({ from, reference }) => [from, reference])).toEqual([
      [0, 1],
      [CLEANED_AT, 2],
    ]);
  });

  it('as of a past day uses what was known then and writes nothing', async () => {
    await record(learned, scaled);
    await analyse(database.context, { asOf: CLEANED_AT + 2 * DAY_MS });
    const [basis] = (await result()).basis;
    expect(basis!.reference).toBeNull();
    expect(await references()).toHaveLength(1);
  });
});

describe('a unit whose reference comes from one clean test', () => {
  const tested = (coldFlow: number) =>
    unitSchema.parse({
      ...FEW_PLATES,
      clean: 'test',
      cleanTest: {
        at: '2025-01-26T12:00:00Z',
        hotIn: { value: 80, unit: 'Cel' },
        hotOut: { value: 52, unit: 'Cel' },
        coldIn: { value: 20, unit: 'Cel' },
        hotFlow: { value: 20, unit: 'kg/s' },
        coldFlow: { value: coldFlow, unit: 'kg/s' },
      },
    });

  it('has its factor on the clean resistance', async () => {
    await record(tested(25));
    const [basis] = (await result()).basis;
    expect(basis!.cleanFactors.hot).toBe(basis!.cleanFactors.cold);
    expect(basis!.cleanFactors.hot).toBeGreaterThan(1.02);
    const proposed = await proposeReference(database.context, tag, { method: 'test' });
    expect(proposed.learned.factors).toEqual(basis!.cleanFactors);
  });

  it('is refused where the test cannot be evaluated, naming the field', async () => {
    const unit = { ...tested(25), cleanTest: { hotIn: { value: 80, unit: 'Cel' } } };
    await expect(registerAtPort(database.context, unit)).rejects.toMatchObject({
      faults: [{ field: expect.stringContaining('cleanTest'), message: expect.stringContaining('missing') }],
    });
  });
});

describe('the sensitivity to the films', () => {
  it('is what an exponent does to a film at today’s flow, and nothing much where the reference was learned at that flow', async () => {
    const LOAD = 0.7;
    // A fluid without viscosity and conductivity: its film follows the flow alone.
    const properties = { specificHeat: { value: 4.19, unit: 'kJ/(kg.K)' } };
    const plain: Unit = { ...FEW_PLATES, hot: { fluid: 'custom', name: 'plain', properties } };
    await record(plain, { hot: 1, wall: 1, cold: 1 }, { swing: 0, load: LOAD });
    const blank = { method: null, from: '', to: '', holds: 'cleaning' as const, holdsAt: '' };
    const movedBy = async (name: string, step: number) => {
      const { sensitivity } = (await readReference(database.context, tag, blank))!;
      expect(sensitivity!.rows).toHaveLength(6);
      expect(sensitivity!.allowance).toBeCloseTo(2e-4, 12);
      const row = sensitivity!.rows.find((one) => one.name === name && one.step === step)!;
      return row.foulingResistance! - sensitivity!.foulingResistance!;
    };
    // By hand: the hot film, 45 % of 1/2800 m²·K/W, times 0.7^−0.8 − 0.7^−0.7, counts as clean and no longer as fouling.
    const film = (0.45 / 2800) * (LOAD ** -0.8 - LOAD ** -0.7);
    const byHand = await movedBy('hotExponent', 0.1);
    expect(Math.abs(byHand + film)).toBeLessThan(0.02 * film);
    await acceptReference(database.context, tag, { method: 'scale', ...WHO });
    expect(Math.abs(await movedBy('hotExponent', 0.1))).toBeLessThan(0.1 * film);
  });
});
