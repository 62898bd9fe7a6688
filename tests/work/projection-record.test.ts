import { describe, expect, it } from 'vitest';
import { judgeUnit } from '../bench/judge-unit';
import { type SimulatedUnit, simulateUnit } from '../bench/simulate-unit';
import { straightLineCrossing } from '../bench/spreadsheet-line';
import { summarise } from '../bench/summarise';

/** Each costs seconds. */
const SLOW = 120_000;
const unitOf = (scenario: 'usual' | 'young', index: number): SimulatedUnit =>
  simulateUnit({ set: 'held-out', scenario, seed: 77, index });

describe('the calibration bench of projections', () => {
  it('carries a straight line on to the limit exactly, and never where it falls', () => {
    const time = Float64Array.from({ length: 50 }, (_, i) => 1000 * i);
    const rising = time.map((at, i) => (i % 7 === 3 ? Number.NaN : 2 + at / 10_000));
    const within = { from: 5000, to: 40_000, limit: 12 };
    expect(straightLineCrossing({ time, foulingResistance: rising }, within)).toBeCloseTo(100_000, 5);
    const falling = rising.map((value) => -value);
    expect(straightLineCrossing({ time, foulingResistance: falling }, within)).toBe(Number.POSITIVE_INFINITY);
  });

  it(
    'simulates the same unit from the same key, and another from the next',
    () => {
      const [one, again, other] = [unitOf('young', 0), unitOf('young', 0), unitOf('young', 1)];
      const lives = ({ cycles }: SimulatedUnit) => cycles.map(({ lifeDays }) => lifeDays);
      expect(again).toEqual(one);
      expect(lives(other)).not.toEqual(lives(one));
    },
    SLOW,
  );

  it(
    'asks before the limit is reached, and the product comes nearer than the straight line',
    () => {
      const judgements = [...judgeUnit(unitOf('usual', 0)), ...judgeUnit(unitOf('usual', 1))];
      expect(judgements.length).toBeGreaterThanOrEqual(2 * 5 * 3);
      for (const { today, truthDay, lifeDays, shareOfLife } of judgements) {
        // Both days are rounded: each moves the distance by up to one.
        expect(Math.abs(truthDay - today - (1 - shareOfLife) * lifeDays)).toBeLessThan(2);
      }
      const halfLife = summarise(judgements.filter(({ shareOfLife }) => shareOfLife === 0.5));
      expect(halfLife.medianError).toBeLessThan(halfLife.lineMedianError);
      expect(halfLife.below + halfLife.coverage + halfLife.above).toBeCloseTo(1, 12);
    },
    SLOW,
  );
});
