import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import { REASON_BIT, type Reason, reasonsOf } from '@/lib/core/checks/reasons';
import { EXCLUDED, INCLUDED, UNJUDGED, verdictsOn } from '@/lib/core/checks/verdicts';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { EVALUATION_FLOAT_COLUMNS } from '@/lib/core/fouling/evaluation-columns';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import {
  breathingStates,
  EPOCH,
  HOUR_MS,
  readingsOf,
  waterUnit,
  withNoise,
} from '../../support/forward-readings';

const unit = waterUnit();
const HOURS = 240;
const hour = (i: number) => EPOCH + i * HOUR_MS;
const record = () => withNoise(readingsOf(breathingStates(unit, HOURS, () => 5e-5)), unit, 101);
const evaluate = (readings: ReadingColumns, judged: JudgedPeriod[] = []) =>
  evaluateReadings({ exchanger: unit, settings: DEFAULT_CHECK_SETTINGS, readings, judged });

describe('periods judged by people', () => {
  const time = Float64Array.from({ length: 6 }, (_, i) => 10 * i);

  it('cover readings from their beginning to before their end; the later in the list holds', () => {
    const judged: JudgedPeriod[] = [
      { from: 10, to: 40, verdict: 'exclude' },
      { from: 30, to: 1000, verdict: 'include' },
    ];
    expect([...verdictsOn(time, judged)]).toEqual([
      UNJUDGED,
      EXCLUDED,
      EXCLUDED,
      INCLUDED,
      INCLUDED,
      INCLUDED,
    ]);
    expect([...verdictsOn(time, judged.toReversed())].slice(2)).toEqual([
      EXCLUDED,
      EXCLUDED,
      INCLUDED,
      INCLUDED,
    ]);
  });

  it('that are empty or end before they begin cover nothing', () => {
    const judged: JudgedPeriod[] = [
      { from: 20, to: 20, verdict: 'exclude' },
      { from: 40, to: 10, verdict: 'exclude' },
    ];
    expect([...verdictsOn(time, judged)]).toEqual(new Array(6).fill(UNJUDGED));
  });
});

describe('a period that a person excludes', () => {
  it('carries that reason beside any other, its figures as they were', () => {
    const readings = record();
    readings.hotOut[55]! += 30;
    readings.hotIn[57] = Number.NaN;
    readings.hotFlow[57] = Number.NaN;
    const before = evaluate(readings);
    const after = evaluate(readings, [{ from: hour(50), to: hour(60), verdict: 'exclude' }]);
    for (let i = 0; i < HOURS; i++) {
      const isWithin = i >= 50 && i < 60;
      const expected = before.reasons[i]! | (isWithin ? REASON_BIT['excluded-by-person'] : 0);
      expect(after.reasons[i]).toBe(expected);
    }
    expect(after.overallU).toEqual(before.overallU);
    expect(reasonsOf(after.reasons[57]!)).toEqual(['missing', 'excluded-by-person']);
  });
});

/** A fault planted at readings 100 to 129, the reason it gives there, and how many readings of it. */
const OPEN: [Reason, (readings: ReadingColumns) => void, number][] = [
  ['frozen-sensor', ({ coldIn }) => coldIn.fill(coldIn[100]!, 100, 130), 30],
  ['spike', ({ hotOut }) => hotOut.set([hotOut[100]! + 8], 100), 1],
  [
    'balance-not-closed',
    ({ hotFlow }) =>
      hotFlow.set(
        hotFlow.subarray(100, 130).map((f) => 1.3 * f),
        100,
      ),
    30,
  ],
  ['flow-below-turndown', ({ coldFlow }) => coldFlow.fill(6, 100, 130), 30],
  ['not-steady', ({ hotFlow, coldFlow }) => [hotFlow, coldFlow].map((flow) => flow.fill(0, 70, 100)), 1],
];
const raise = (column: Float64Array, by: number) =>
  column.set(
    column.subarray(100, 130).map((value) => value + by),
    100,
  );
const CLOSED: [Reason, (readings: ReadingColumns) => void, number][] = [
  [
    'missing',
    ({ hotIn, hotFlow }) => [hotIn, hotFlow].map((column) => column.fill(Number.NaN, 100, 130)),
    30,
  ],
  ['not-a-number', ({ hotIn }) => hotIn.fill(Number.POSITIVE_INFINITY, 100, 130), 30],
  ['out-of-range', ({ hotIn }) => hotIn.fill(900, 100, 130), 30],
  ['outside-fluid-range', ({ hotIn }) => hotIn.fill(400, 100, 130), 30],
  ['unit-off', ({ hotFlow, coldFlow }) => [hotFlow, coldFlow].map((flow) => flow.fill(0, 100, 130)), 30],
  ['reversed-temperatures', ({ hotOut }) => raise(hotOut, 45), 30],
  ['effectiveness-above-limit', ({ coldOut }) => raise(coldOut, 90), 30],
];
const includeAll: JudgedPeriod[] = [{ from: hour(100), to: hour(130), verdict: 'include' }];
const carrying = (reasons: Uint32Array, reason: Reason) =>
  [...reasons.subarray(100, 130)].filter((mask) => (mask & REASON_BIT[reason]) !== 0).length;

describe('a period that a person includes', () => {
  for (const [reason, plant, count] of OPEN) {
    it(`counts again where the reason was ${reason}`, () => {
      const readings = record();
      plant(readings);
      expect(carrying(evaluate(readings).reasons, reason)).toBeGreaterThanOrEqual(count);
      const { reasons, foulingResistance } = evaluate(readings, includeAll);
      expect(carrying(reasons, reason)).toBe(0);
      for (let i = 100; i < 130; i++) if (reasons[i] === 0) expect(foulingResistance[i]).not.toBeNaN();
      expect(reasons.subarray(100, 130).filter((mask) => mask === 0).length).toBeGreaterThanOrEqual(count);
    });
  }

  for (const [reason, plant, count] of CLOSED) {
    it(`does not count where the reason was ${reason}: there is no number to use`, () => {
      const readings = record();
      plant(readings);
      expect(carrying(evaluate(readings).reasons, reason)).toBe(count);
      expect(carrying(evaluate(readings, includeAll).reasons, reason)).toBe(count);
    });
  }

  it('has what a spike hid looked at after all: its temperatures were reversed', () => {
    const readings = record();
    readings.hotOut[110] = 95;
    expect(reasonsOf(evaluate(readings).reasons[110]!)).toEqual(['spike']);
    expect(reasonsOf(evaluate(readings, includeAll).reasons[110]!)).toEqual(['reversed-temperatures']);
  });

  it('changes nothing outside the period', () => {
    const readings = record();
    readings.coldIn.fill(readings.coldIn[90]!, 90, 140);
    const after = evaluate(readings, includeAll).reasons;
    evaluate(readings).reasons.forEach((mask, i) => {
      if (i < 100 || i >= 130) expect(after[i]).toBe(mask);
    });
  });
});

const value = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: 5, max: 95, noNaN: true }) },
  fc.constantFrom(Number.NaN, 0, 20, 20, 80, Number.POSITIVE_INFINITY, -300, 9999),
);
const flow = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: 1, max: 40, noNaN: true }) },
  fc.constantFrom(Number.NaN, 0, -50, 1e-300, 1e308, Number.POSITIVE_INFINITY),
);
const row = fc.tuple(value, value, value, value, flow, flow, flow, flow);
const period = fc.record({
  from: fc.integer({ min: -2, max: 22 }).map(hour),
  to: fc.integer({ min: -2, max: 22 }).map(hour),
  verdict: fc.constantFrom('include' as const, 'exclude' as const),
});

describe('whatever people say of whatever comes in', () => {
  it('a figure is NaN only where the mask is not zero, never Infinity, and what holds no number stays out', () => {
    const hopeless =
      REASON_BIT.missing |
      REASON_BIT['not-a-number'] |
      REASON_BIT['out-of-range'] |
      REASON_BIT['outside-fluid-range'] |
      REASON_BIT['unit-off'];
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 20 }),
        fc.array(period, { maxLength: 4 }),
        (rows, judged) => {
          const readings = makeReadingColumns(rows.length);
          rows.forEach((values, i) => {
            readings.time[i] = hour(i);
            SENSORS.forEach((sensor, place) => {
              readings[sensor][i] = values[place]!;
            });
          });
          const before = evaluate(readings);
          const after = evaluate(readings, judged);
          for (const name of EVALUATION_FLOAT_COLUMNS) {
            const mayLack = name === 'hotDuty' || name === 'coldDuty' || name === 'balance';
            after[name].forEach((figure, i) => {
              expect(Math.abs(figure)).not.toBe(Number.POSITIVE_INFINITY);
              if (after.reasons[i] === 0 && !mayLack) expect(figure).not.toBeNaN();
            });
          }
          after.reasons.forEach((mask, i) => {
            expect(mask & hopeless & before.reasons[i]!).toBe(before.reasons[i]! & hopeless);
            const last = judged.findLast(
              ({ from, to }) => readings.time[i]! >= from && readings.time[i]! < to,
            );
            expect((mask & REASON_BIT['excluded-by-person']) !== 0).toBe(last?.verdict === 'exclude');
            if (last === undefined) expect(mask).toBe(before.reasons[i]);
          });
        },
      ),
      { seed: 20251, numRuns: 500 },
    );
  });
});
