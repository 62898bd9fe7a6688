import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { nominalSensors } from '@/lib/core/checks/nominal-sensors';
import { REASON_BIT } from '@/lib/core/checks/reasons';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import type { Arrangement, Exchanger } from '@/lib/core/exchange/exchanger';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { EVALUATION_FLOAT_COLUMNS, sensorsOf } from '@/lib/core/fouling/evaluation-columns';
import { MISSING_TOGETHER } from '@/lib/core/fouling/sensor-plan';
import { DAILY_FLOAT_COLUMNS } from '@/lib/core/series/daily-columns';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import {
  BOILING_DESIGN,
  breathingStates,
  constantFluid,
  DAY_MS,
  EPOCH,
  HOUR_MS,
  readingsOf,
  solveForward,
  waterUnit,
  withNoise,
} from '../support/forward-readings';

const SEED = 20250117;
const RUNS = { seed: SEED, numRuns: 1000 };
const settings = DEFAULT_CHECK_SETTINGS;

const GENTLE = { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 };
const STEAM = { hotIn: 120, hotOut: 120, coldIn: 40, coldOut: 80, hotFlow: 1.9, coldFlow: 25, cleanU: 2500 };
const arrangements: Arrangement[] = [
  { kind: 'counter-current' },
  { kind: 'co-current' },
  { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
  { kind: 'crossflow', mixed: 'none' },
  { kind: 'crossflow', mixed: 'both' },
  { kind: 'plate', hotPasses: 2, coldPasses: 1, flow: 'counter' },
];
const units: Exchanger[] = [
  ...arrangements.map((arrangement) => waterUnit({ arrangement, area: 30, design: GENTLE })),
  waterUnit({ hot: { kind: 'steam', pressure: null }, area: 26, design: STEAM }),
  waterUnit({ hot: { kind: 'steam', pressure: 198_670 }, area: 26, design: STEAM }),
  waterUnit({
    hot: constantFluid(2000),
    cold: { kind: 'seawater', salinity: 0.035 },
    area: 30,
    design: GENTLE,
  }),
  waterUnit({ cold: { kind: 'steam', pressure: null }, area: 40, design: BOILING_DESIGN }),
  waterUnit({ cold: { kind: 'steam', pressure: 101_325 }, area: 40, design: BOILING_DESIGN }),
  waterUnit({ area: 30, design: GENTLE, nominalFlows: { hot: 20, cold: null } }),
  waterUnit({ area: 30, design: GENTLE, nominalFlows: { hot: 20, cold: 25 } }),
  waterUnit({
    hot: { kind: 'steam', pressure: 198_670 },
    area: 26,
    design: STEAM,
    nominalFlows: { hot: null, cold: 25 },
  }),
];

/** Anything a historian may deliver: sound values, none, zeros, equal ones, infinite ones, absurd ones. */
const temperature = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: 5, max: 125, noNaN: true }) },
  fc.constantFrom(Number.NaN, 0, 20, 20, 80, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -300, 9999),
);
const flow = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: 0.5, max: 45, noNaN: true }) },
  fc.constantFrom(Number.NaN, 0, -0.1, -50, 1e-300, 1e308, Number.POSITIVE_INFINITY),
);
const reading = fc.record({
  hotIn: temperature,
  hotOut: temperature,
  coldIn: temperature,
  coldOut: temperature,
  hotFlow: flow,
  coldFlow: flow,
  hotPressureDrop: fc.oneof(flow, fc.constant(4e4)),
  coldPressureDrop: flow,
  flowBasis: fc.constantFrom(0, 0, 1, 2, 3),
});

function columnsOf(
  rows: (Record<(typeof SENSORS)[number], number> & { flowBasis: number })[],
): ReadingColumns {
  const readings = makeReadingColumns(rows.length);
  rows.forEach((row, i) => {
    readings.time[i] = EPOCH + i * HOUR_MS;
    readings.flowBasis[i] = row.flowBasis;
    for (const sensor of SENSORS) readings[sensor][i] = row[sensor];
  });
  return readings;
}

/** These say by NaN that a side was not measured, which is no reason to leave a reading out. */
const MAY_BE_UNMEASURED = new Set(['hotDuty', 'coldDuty', 'balance']);

describe(`evaluated columns (seed ${SEED})`, () => {
  it('hold NaN only where the mask is not zero, and never Infinity, whatever comes in', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        fc.array(reading, { minLength: 1, maxLength: 20 }),
        (exchanger, rows) => {
          const readings = columnsOf(rows);
          const result = evaluateReadings({ exchanger, settings, readings });
          for (const name of EVALUATION_FLOAT_COLUMNS) {
            result[name].forEach((value, i) => {
              expect(Math.abs(value)).not.toBe(Number.POSITIVE_INFINITY);
              if (result.reasons[i] === 0 && !MAY_BE_UNMEASURED.has(name)) expect(value).not.toBeNaN();
            });
          }
          const localDay = Int32Array.from(readings.time, (time) => Math.floor(time / DAY_MS));
          const daily = dailyFigures(result, readings, {
            localDay,
            cleanings: [EPOCH + 3 * HOUR_MS],
            exchanger,
          });
          for (const name of DAILY_FLOAT_COLUMNS) {
            for (const value of daily[name]) expect(Math.abs(value)).not.toBe(Number.POSITIVE_INFINITY);
          }
          result.reasons.forEach((mask, i) => {
            const isMissing = (mask & REASON_BIT.missing) !== 0;
            expect(result.missing[i] !== 0).toBe(isMissing);
            // No sensor is both inferred and nominal, and what was read is neither.
            expect(result.inferred[i]! & result.nominal[i]!).toBe(0);
            for (const sensor of sensorsOf(result.nominal[i]!, BALANCE_SENSORS))
              expect(readings[sensor][i]).toBeNaN();
            if (result.nominal[i] !== 0) expect(result.balance[i]).toBeNaN();
          });
          daily.accepted.forEach((accepted, row) => {
            expect(Number.isNaN(daily.foulingResistance[row]!)).toBe(accepted === 0);
          });
        },
      ),
      RUNS,
    );
  });

  it('give a higher fouling resistance the dirtier the unit, at any inlets and flows, and bring back the true one', () => {
    const case_ = fc.record({
      exchanger: fc.constantFrom(...units),
      hotIn: fc.double({ min: 70, max: 90, noNaN: true }),
      coldIn: fc.double({ min: 10, max: 30, noNaN: true }),
      hotShare: fc.double({ min: 0.5, max: 1.5, noNaN: true }),
      coldShare: fc.double({ min: 0.5, max: 1.5, noNaN: true }),
      fouling: fc.double({ min: -1e-4, max: 8e-4, noNaN: true }),
      more: fc.double({ min: 1e-5, max: 4e-4, noNaN: true }),
    });
    fc.assert(
      fc.property(case_, ({ exchanger, hotIn, coldIn, hotShare, coldShare, fouling, more }) => {
        const condenses = exchanger.hot.kind === 'steam';
        const evaporates = exchanger.cold.kind === 'steam';
        const at = {
          hotIn: condenses ? hotIn + 40 : evaporates ? hotIn + 60 : hotIn,
          coldIn: evaporates ? coldIn + 80 : coldIn,
          hotFlow: hotShare * exchanger.design.hotFlow,
          coldFlow: coldShare * exchanger.design.coldFlow,
        };
        const states = [fouling, fouling + more].map((own) =>
          solveForward(exchanger, { ...at, fouling: own }),
        );
        // The flow of the stream that changes phase follows the duty: it is left to be inferred.
        const readings = readingsOf(
          states.map((state) => ({
            ...state,
            hotFlow: condenses ? Number.NaN : state.hotFlow,
            coldFlow: evaporates ? Number.NaN : state.coldFlow,
          })),
        );
        const result = evaluateReadings({ exchanger, settings, readings });
        fc.pre(result.reasons[0] === 0 && result.reasons[1] === 0);
        expect(result.foulingResistance[1]!).toBeGreaterThan(result.foulingResistance[0]!);
        states.forEach((state, i) => {
          expect(Math.abs(result.foulingResistance[i]! - state.fouling) * state.cleanU).toBeLessThan(1e-6);
        });
      }),
      RUNS,
    );
  });
});

describe(`what is missing (seed ${SEED})`, () => {
  it('named and then measured, makes any reading evaluable: one of them, or all of a list together', () => {
    const design = (exchanger: Exchanger) => ({
      ...exchanger.design,
      hotPressureDrop: 4e4,
      coldPressureDrop: 4e4,
    });
    fc.assert(
      fc.property(fc.constantFrom(...units), fc.nat(63), (exchanger, measured) => {
        const row = { ...design(exchanger), flowBasis: 0 };
        for (const sensor of sensorsOf(63 & ~measured, BALANCE_SENSORS)) row[sensor] = Number.NaN;
        const evaluate = (readings: ReadingColumns) => evaluateReadings({ exchanger, settings, readings });
        const before = evaluate(columnsOf([row]));
        const bits = before.missing[0]!;
        const named = sensorsOf(bits & 63, BALANCE_SENSORS);
        const isTogether = (bits & MISSING_TOGETHER) !== 0;
        expect(named.length > 0).toBe((before.reasons[0]! & REASON_BIT.missing) !== 0);
        const ways = isTogether ? [named] : named.map((sensor) => [sensor]);
        for (const way of ways) {
          const more = { ...row };
          for (const sensor of way) more[sensor] = exchanger.design[sensor];
          expect(evaluate(columnsOf([more])).reasons[0]! & REASON_BIT.missing).toBe(0);
        }
      }),
      RUNS,
    );
  });
});

describe(`evaluation of part of a record (seed ${SEED})`, () => {
  const exchanger = units[0]!;
  const HOURS = 40 * 24;
  const record = withNoise(
    readingsOf(breathingStates(exchanger, HOURS, (hour) => 1e-7 * hour)),
    exchanger,
    SEED,
    0.1,
  );
  const random = makeRandom(SEED);
  for (let k = 0; k < 60; k++) record.hotOut[Math.floor(random.uniform() * HOURS)]! += 9;
  for (const from of [100, 420, 700]) record.coldIn.fill(record.coldIn[from]!, from, from + 40);
  const slice = (readings: ReadingColumns, from: number, to: number) =>
    Object.fromEntries(
      Object.entries(readings).map(([name, own]) => [name, own.slice(from, to)]),
    ) as ReadingColumns;
  const whole = evaluateReadings({ exchanger, settings, readings: record });
  const nominal = nominalSensors(record);
  const reach = CHECK_REACH_MS / HOUR_MS;

  it('equals that of the whole record, from CHECK_REACH_MS inside its ends on', () => {
    fc.assert(
      fc.property(fc.nat(HOURS - 1), fc.nat(HOURS), (start, length) => {
        const end = Math.min(HOURS, start + 2 * reach + 1 + (length % 100));
        const part = evaluateReadings({ exchanger, settings, readings: slice(record, start, end), nominal });
        const first = start === 0 ? 0 : start + reach;
        const last = end === HOURS ? end : end - reach;
        for (let i = first; i < last; i++) {
          expect(part.reasons[i - start]).toBe(whole.reasons[i]);
          expect(part.foulingResistance[i - start]).toBe(whole.foulingResistance[i]);
        }
      }),
      { seed: SEED, numRuns: 200 },
    );
  });

  it('is the same a whole number of days earlier or later', () => {
    fc.assert(
      fc.property(fc.integer({ min: -9000, max: 9000 }), (days) => {
        const moved = { ...record, time: record.time.map((time) => time + days * DAY_MS) };
        const result = evaluateReadings({ exchanger, settings, readings: moved, nominal });
        expect(result.reasons).toEqual(whole.reasons);
        expect(result.foulingResistance).toEqual(whole.foulingResistance);
      }),
      { seed: SEED, numRuns: 50 },
    );
  });
});
