import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import {
  demingSlope,
  EXPONENT_DAYS,
  FEWEST_EXPONENT_READINGS,
  LARGEST_EXPONENT_UNCERTAINTY,
  learnPressureExponent,
} from '@/lib/core/clean/learn-pressure-exponent';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { makeRandom } from '@/lib/core/stats/random';
import {
  DAY_MS,
  EPOCH,
  readingsOf,
  solveForward,
  waterUnit,
  withNoise,
} from '../../support/forward-readings';

const exchanger = waterUnit({
  sensors: {
    ...waterUnit().sensors,
    hotFlow: { absolute: 0, relative: 0.015, systematicShare: 0.5 },
    hotPressureDrop: { absolute: 0, relative: 0.01, systematicShare: 0.5 },
  },
});

type Plant = { exponent: number; swing: number; hours?: number; seed: number; growthPerDay?: number };

/** Hourly readings of a clean unit whose hot flow wanders by a standard deviation of `swing`, all sensors with their random error. */
function plant({ exponent, swing, hours = 20 * 24, seed, growthPerDay = 0.002 }: Plant) {
  const random = makeRandom(seed);
  let wander = random.normal();
  const states = Array.from({ length: hours }, (_, hour) => {
    wander = 0.8 * wander + 0.6 * random.normal();
    const flow = exchanger.design.hotFlow * (0.95 + swing * wander);
    return solveForward(exchanger, { ...exchanger.design, hotFlow: flow, fouling: 1e-7 * (hour / 24) });
  });
  const readings = withNoise(readingsOf(states), exchanger, seed + 1);
  readings.hotPressureDrop = Float64Array.from(states, ({ hotFlow }, hour) => {
    const clean = 40_000 * (hotFlow / exchanger.design.hotFlow) ** exponent;
    return clean * (1 + growthPerDay * (hour / 24)) * (1 + 0.01 * Math.SQRT1_2 * random.normal());
  });
  const evaluation = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
  return { evaluation, readings, exchanger, side: 'hot', start: EPOCH } as const;
}

describe('the exponent of the pressure drop', () => {
  it('is found within its uncertainty, which is neither too small nor much too large, over 60 plants', () => {
    const deviations = Array.from({ length: 60 }, (_, i) => {
      const exponent = 1.5 + 0.01 * i;
      const learned = learnPressureExponent(plant({ exponent, swing: 0.06, seed: 100 + 3 * i }))!;
      return (learned.exponent - exponent) / learned.uncertainty;
    });
    const mean = deviations.reduce((sum, value) => sum + value, 0) / deviations.length;
    const spread = Math.sqrt(deviations.reduce((sum, value) => sum + value ** 2, 0) / deviations.length);
    expect(Math.abs(mean)).toBeLessThan(0.7);
    expect(spread).toBeGreaterThan(0.4);
    expect(spread).toBeLessThan(1.3);
  });

  it('is found to 0.1 or said to be unknown, whatever the swing of the flow', () => {
    for (const swing of [0.005, 0.01, 0.02, 0.04, 0.08]) {
      const learned = learnPressureExponent(plant({ exponent: 1.7, swing, seed: 7 }))!;
      if (learned.isIdentifiable)
        expect(Math.abs(learned.exponent - 1.7)).toBeLessThan(3 * LARGEST_EXPONENT_UNCERTAINTY);
      expect(learned.isIdentifiable).toBe(swing >= 0.04);
    }
  });

  it('is not used where no channel has such an exponent: a valve throttles', () => {
    const learned = learnPressureExponent(plant({ exponent: 0.7, swing: 0.08, seed: 9 }))!;
    expect(learned.uncertainty).toBeLessThan(LARGEST_EXPONENT_UNCERTAINTY);
    expect(learned.isIdentifiable).toBe(false);
  });

  it('takes the first ten days after the cleaning only, and says which', () => {
    const input = plant({ exponent: 1.8, swing: 0.06, seed: 11 });
    const start = EPOCH + 4.5 * DAY_MS;
    const learned = learnPressureExponent({ ...input, start })!;
    expect(learned.from).toBeGreaterThanOrEqual(start);
    expect(learned.to).toBeLessThan(learned.from + EXPONENT_DAYS * DAY_MS);
    expect(learned.readings).toBeGreaterThan(9 * 24);
  });

  it('does not mistake growth for an exponent: flow that falls while the channel narrows', () => {
    const input = plant({ exponent: 1.8, swing: 0.06, seed: 13, growthPerDay: 0.03 });
    const learned = learnPressureExponent(input)!;
    expect(Math.abs(learned.exponent - 1.8)).toBeLessThan(3 * learned.uncertainty);
  });

  it('bears a tenth of wild readings', () => {
    const input = plant({ exponent: 1.8, swing: 0.06, seed: 15 });
    for (let i = 0; i < input.readings.time.length; i += 10) input.readings.hotPressureDrop[i]! *= 1.5;
    const learned = learnPressureExponent(input)!;
    expect(Math.abs(learned.exponent - 1.8)).toBeLessThan(0.15);
  });

  it('has no answer from fewer than two days, or where nothing is measured', () => {
    const short = plant({ exponent: 1.8, swing: 0.06, seed: 17, hours: FEWEST_EXPONENT_READINGS - 1 });
    expect(learnPressureExponent(short)).toBeNull();
    const input = plant({ exponent: 1.8, swing: 0.06, seed: 17 });
    expect(learnPressureExponent({ ...input, side: 'cold' })).toBeNull();
  });
});

describe("Deming's line", () => {
  const random = makeRandom(5);
  const points = Array.from({ length: 300 }, () => {
    const truth = random.normal();
    return { x: truth + 0.5 * random.normal(), y: 2 * truth + 0.5 * random.normal() };
  });
  const sum = (of: (point: { x: number; y: number }) => number) =>
    points.reduce((total, point) => total + of(point), 0);
  const [meanX, meanY] = [sum(({ x }) => x) / 300, sum(({ y }) => y) / 300];
  const sums = {
    xx: sum(({ x }) => (x - meanX) ** 2),
    xy: sum(({ x, y }) => (x - meanX) * (y - meanY)),
    yy: sum(({ y }) => (y - meanY) ** 2),
  };

  it('with equal errors is the line of least perpendicular distance, found here by brute force', () => {
    const distance = (slope: number) =>
      (sums.yy - 2 * slope * sums.xy + slope ** 2 * sums.xx) / (1 + slope ** 2);
    let best = 0;
    for (let slope = 0; slope < 4; slope += 1e-4) if (distance(slope) < distance(best)) best = slope;
    expect(Math.abs(demingSlope({ ...sums, ratio: 1 }) - best)).toBeLessThan(1e-4);
  });

  it('undoes what the error of x takes from an ordinary slope', () => {
    expect(sums.xy / sums.xx).toBeLessThan(1.75);
    expect(Math.abs(demingSlope({ ...sums, ratio: 1 }) - 2)).toBeLessThan(0.15);
  });

  it('approaches the ordinary slope as x becomes exact', () => {
    expect(demingSlope({ ...sums, ratio: 1e6 })).toBeCloseTo(sums.xy / sums.xx, 4);
  });
});
