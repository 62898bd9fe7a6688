import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { REASON_BIT, type Reason } from '@/lib/core/checks/reasons';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { breathingStates, HOUR_MS, readingsOf, waterUnit, withNoise } from '../../support/forward-readings';

const SEED = 4711;
const HOURS = 200 * 24;
const units = [
  waterUnit(),
  waterUnit({
    arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
    area: 30,
    design: { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 },
  }),
];
const truths = units.map((unit) => readingsOf(breathingStates(unit, HOURS, (hour) => 3e-8 * hour)));
const evaluate = (which: number, readings: ReadingColumns) =>
  evaluateReadings({ exchanger: units[which]!, settings: DEFAULT_CHECK_SETTINGS, readings });
const leftOutShare = (reasons: Uint32Array) => reasons.filter((mask) => mask !== 0).length / reasons.length;

describe('false alarms on clean readings: at most 0.5 % left out', () => {
  for (const resolution of [0, 0.1, 0.5]) {
    it(`hourly data of 200 days, historian resolution ${resolution}`, () => {
      units.forEach((unit, which) => {
        const { reasons } = evaluate(which, withNoise(truths[which]!, unit, SEED + which, resolution));
        expect(leftOutShare(reasons)).toBeLessThanOrEqual(0.005);
      });
    });
  }

  it('without any noise, with inlets and flows that never change', () => {
    const unit = units[0]!;
    const steady = { ...unit.design };
    const readings = readingsOf(breathingStates(unit, 720, (hour) => 1e-7 * hour));
    for (const sensor of ['hotIn', 'coldIn', 'hotFlow', 'coldFlow'] as const)
      readings[sensor].fill(steady[sensor]);
    const { reasons } = evaluateReadings({
      exchanger: unit,
      settings: { ...DEFAULT_CHECK_SETTINGS, balanceTolerance: 1 },
      readings,
    });
    expect(leftOutShare(reasons)).toBe(0);
  });
});

/** Plants a fault at 40 places and gives the share of its readings that carry the reason. */
function foundShare(
  reason: Reason,
  length: number,
  plant: (readings: ReadingColumns, from: number) => void,
): number {
  const readings = withNoise(truths[0]!, units[0]!, SEED + 9, 0.1);
  const random = makeRandom(SEED);
  const places = Array.from({ length: 40 }, (_, k) => 100 + k * 115 + Math.floor(random.uniform() * 40));
  for (const from of places) plant(readings, from);
  const { reasons } = evaluate(0, readings);
  let found = 0;
  for (const from of places) {
    for (let i = from; i < from + length; i++) if ((reasons[i]! & REASON_BIT[reason]) !== 0) found++;
  }
  return found / (places.length * length);
}

describe('planted faults: at least 95 % of their readings found', () => {
  for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const) {
    it(`frozen ${sensor}, 30 hours at a time`, () => {
      const freeze = (readings: ReadingColumns, from: number) => {
        readings[sensor].fill(readings[sensor][from]!, from, from + 30);
      };
      expect(foundShare('frozen-sensor', 30, freeze)).toBeGreaterThanOrEqual(0.95);
    });

    it(`spike of ${sensor}`, () => {
      const spike = (readings: ReadingColumns, from: number) => {
        if (sensor.endsWith('Flow')) readings[sensor][from]! *= 0.6;
        else readings[sensor][from]! += sensor.startsWith('hot') ? 6 : -6;
      };
      expect(foundShare('spike', 1, spike)).toBeGreaterThanOrEqual(0.95);
    });
  }

  for (const side of ['hot', 'cold'] as const) {
    it(`swapped ${side} inlet and outlet, a week`, () => {
      const swap = (readings: ReadingColumns, from: number) => {
        for (let i = from; i < from + 20; i++) {
          const inlet = readings[`${side}In`][i]!;
          readings[`${side}In`][i] = readings[`${side}Out`][i]!;
          readings[`${side}Out`][i] = inlet;
        }
      };
      expect(foundShare('reversed-temperatures', 20, swap)).toBeGreaterThanOrEqual(0.95);
    });
  }

  it('unit off for a shift', () => {
    const stop = (readings: ReadingColumns, from: number) => {
      readings.hotFlow.fill(0.1, from, from + 8);
      readings.coldFlow.fill(0, from, from + 8);
    };
    expect(foundShare('unit-off', 8, stop)).toBe(1);
  });

  it('a flow meter that reads a quarter too much', () => {
    const drift = (readings: ReadingColumns, from: number) => {
      for (let i = from; i < from + 30; i++) readings.hotFlow[i]! *= 1.25;
    };
    expect(foundShare('balance-not-closed', 30, drift)).toBeGreaterThanOrEqual(0.95);
  });
});

describe('the reach of a reading', () => {
  it('ends at CHECK_REACH_MS: no change there moves the screening further away', () => {
    const base = withNoise(truths[0]!, units[0]!, SEED + 2, 0.1);
    const part = (readings: ReadingColumns): ReadingColumns =>
      Object.fromEntries(
        Object.entries(readings).map(([name, column]) => [name, column.slice(0, 30 * 24)]),
      ) as ReadingColumns;
    const before = part(base);
    before.hotOut.fill(before.hotOut[300]!, 300, 420);
    const reasons = evaluate(0, before).reasons;
    const random = makeRandom(SEED);
    for (let trial = 0; trial < 60; trial++) {
      const changed = part(before);
      const i = Math.floor(random.uniform() * changed.time.length);
      for (const sensor of ['hotOut', 'coldIn', 'hotFlow'] as const)
        changed[sensor][i]! += random.normal() * 5;
      if (trial % 3 === 0) changed.hotOut.fill(changed.hotOut[i]!, i, i + 12);
      const after = evaluate(0, changed).reasons;
      const last = trial % 3 === 0 ? i + 11 : i;
      for (let j = 0; j < after.length; j++) {
        if (after[j] === reasons[j]) continue;
        expect(j).toBeGreaterThanOrEqual(i - CHECK_REACH_MS / HOUR_MS);
        expect(j).toBeLessThanOrEqual(last + CHECK_REACH_MS / HOUR_MS);
      }
    }
  });
});

describe('the inlet temperature of condensing steam', () => {
  /** Steam at a constant pressure: its thermometer moves by a tenth every five days while the cold side breathes. */
  function frozenShare(pressure: number | null): number {
    const exchanger = waterUnit({
      hot: { kind: 'steam', pressure },
      design: { hotIn: 120, hotOut: 119, coldIn: 40, coldOut: 80, hotFlow: 2, coldFlow: 25, cleanU: 2000 },
    });
    const readings = makeReadingColumns(60 * 24);
    for (let hour = 0; hour < readings.time.length; hour++) {
      readings.time[hour] = hour * HOUR_MS;
      readings.hotIn[hour] = 120 + 0.1 * (Math.floor(hour / 120) % 2);
      readings.coldIn[hour] = 40 + 3 * Math.sin(hour / 4);
      readings.coldOut[hour] = 80 + 2 * Math.sin(hour / 4);
      readings.coldFlow[hour] = 25 + Math.sin(hour / 7);
    }
    const { reasons } = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
    return reasons.filter((mask) => (mask & REASON_BIT['frozen-sensor']) !== 0).length / reasons.length;
  }

  it('may stand still where the pressure is stated, for it is not used then', () => {
    expect(frozenShare(198_700)).toBe(0);
  });

  it('is judged like any other where it tells the saturation temperature: some standstills stand out', () => {
    expect(frozenShare(null)).toBeGreaterThan(0.01);
  });
});
