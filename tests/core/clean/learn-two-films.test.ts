import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { type FilmSplit, filmSplit } from '@/lib/core/clean/film-split';
import { type LearnedFilms, learnTwoFilms } from '@/lib/core/clean/learn-two-films';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { makeRandom } from '@/lib/core/stats/random';
import {
  EPOCH,
  HOUR_MS,
  readingsOf,
  solveForward,
  waterUnit,
  withNoise,
} from '../../support/forward-readings';

const exchanger = waterUnit();
const settings = DEFAULT_CHECK_SETTINGS;
const TRUTH = { hot: 1.3, cold: 0.8 };
const DAYS = 5;

/** A datasheet whose films are the given multiples of the unit's, the wall the same: what really stands there. */
function trueUnit({ hot, cold }: { hot: number; cold: number }, wall = 1): Exchanger {
  const { films, design } = exchanger;
  const coldShare = 1 - films.hotShare - films.wallShare;
  const whole = hot * films.hotShare + wall * films.wallShare + cold * coldShare;
  return waterUnit({
    design: { ...design, cleanU: design.cleanU! / whole },
    films: {
      ...films,
      hotShare: (hot * films.hotShare) / whole,
      wallShare: (wall * films.wallShare) / whole,
    },
  });
}

/** Hourly readings of a clean unit whose two flows vary on their own, by the given shares. */
function cleanReadings(unit: Exchanger, swing: { hot: number; cold: number }) {
  const { design } = unit;
  const states = Array.from({ length: DAYS * 24 }, (_, hour) =>
    solveForward(unit, {
      hotIn: design.hotIn + 2 * Math.sin(hour / 5),
      coldIn: design.coldIn + 2 * Math.sin(hour / 9),
      hotFlow: design.hotFlow * (1 + swing.hot * Math.sin(hour / 7)),
      coldFlow: design.coldFlow * (1 + swing.cold * Math.sin(hour / 11)),
      fouling: 0,
    }),
  );
  return readingsOf(states);
}

function learn(readings: ReturnType<typeof cleanReadings>): LearnedFilms {
  const split = filmSplit({ exchanger, settings, readings }, EPOCH, EPOCH + DAYS * 24 * HOUR_MS);
  return learnTwoFilms(split)!;
}

/** Resistances as two films with exponent 0.7 on flows around 1 give them, with noise of relative size `noise`. */
function synthetic(
  flows: { hot: number; cold: number }[],
  { noise, seed, truth }: { noise: number; seed: number; truth: { hot: number; wall: number; cold: number } },
): FilmSplit {
  const random = makeRandom(seed);
  const [hotFilm, coldFilm, wall] = [1.6e-4, 1.8e-4, 0.2e-4];
  const hot = Float64Array.from(flows, (flow) => hotFilm * flow.hot ** -0.7);
  const cold = Float64Array.from(flows, (flow) => coldFilm * flow.cold ** -0.7);
  const clean = hot.map((value, i) => truth.wall * wall + truth.hot * value + truth.cold * cold[i]!);
  return {
    time: Float64Array.from(flows, (_, i) => EPOCH + i * HOUR_MS),
    total: clean.map((value) => value * (1 + noise * random.normal())),
    uncertainty: clean.map((value) => value * Math.max(noise, 0.01)),
    hot,
    cold,
    wall,
    hotFlow: Float64Array.from(flows, (flow) => flow.hot),
    coldFlow: Float64Array.from(flows, (flow) => flow.cold),
  };
}

const varied = (count: number) =>
  Array.from({ length: count }, (_, i) => ({
    hot: 1 + 0.35 * Math.sin(i / 7),
    cold: 1 + 0.35 * Math.sin(i / 11),
  }));

describe('two films learned from a clean period', () => {
  it('come back exactly from readings without noise, through the whole evaluation', () => {
    const learned = learn(cleanReadings(trueUnit(TRUTH), { hot: 0.3, cold: 0.3 }));
    expect(learned.doubts).toEqual([]);
    expect(learned.readings).toBe(DAYS * 24);
    // The readings close their balance to 1e-12; what is left is the tabulated water of the evaluation.
    expect(Math.abs(learned.factors.hot - TRUTH.hot)).toBeLessThan(1e-5);
    expect(Math.abs(learned.factors.cold - TRUTH.cold)).toBeLessThan(1e-5);
    expect(learned.factors.wall).toBe(1);
    expect(learned.scatter).toBeLessThan(1e-6);
  });

  it('solve the weighted normal equations of the whitened readings, written out by hand', () => {
    const split = synthetic(varied(40), { noise: 0.02, seed: 3, truth: { ...TRUTH, wall: 1 } });
    const learned = learnTwoFilms(split)!;
    const phi = learned.autocorrelation;
    const whitened = (column: (i: number) => number) =>
      Array.from({ length: 40 }, (_, i) => {
        const own = column(i) / split.uncertainty[i]!;
        if (i === 0) return own;
        return (own - (phi * column(i - 1)) / split.uncertainty[i - 1]!) / Math.sqrt(1 - phi * phi);
      });
    const h = whitened((i) => split.hot[i]!);
    const c = whitened((i) => split.cold[i]!);
    const y = whitened((i) => split.total[i]! - split.wall);
    const dot = (a: number[], b: number[]) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
    const [hh, hc, cc] = [dot(h, h), dot(h, c), dot(c, c)];
    const determinant = hh * cc - hc * hc;
    expect(learned.factors.hot).toBeCloseTo((cc * dot(h, y) - hc * dot(c, y)) / determinant, 9);
    expect(learned.factors.cold).toBeCloseTo((hh * dot(c, y) - hc * dot(h, y)) / determinant, 9);
    const cosine = hc / Math.sqrt(hh * cc);
    expect(learned.correlation).toBeCloseTo(-cosine, 9);
    // Condition number of the scaled cross-product matrix [[1, c], [c, 1]]: eigenvalues 1 ± c, index √ of their ratio.
    expect(learned.condition).toBeCloseTo(Math.sqrt((1 + cosine) / (1 - cosine)), 7);
  });

  it('leave fouling that begins within the period to the noise', () => {
    const split = synthetic(varied(120), { noise: 0.003, seed: 9, truth: { ...TRUTH, wall: 1 } });
    // Three per cent of the clean resistance in five days.
    split.total.forEach((value, i) => {
      split.total[i] = value + (i / 120) * 0.03 * split.total[0]!;
    });
    const learned = learnTwoFilms(split)!;
    expect(learned.doubts).toEqual([]);
    expect(Math.abs(learned.factors.hot - TRUTH.hot)).toBeLessThan(0.05);
    expect(Math.abs(learned.factors.cold - TRUTH.cold)).toBeLessThan(0.05);
  });

  it('have error bars that hold the truth: 95 % intervals in at least 90 % of 200 seeded records', () => {
    const held = { hot: 0, cold: 0 };
    for (let seed = 1; seed <= 200; seed++) {
      const learned = learnTwoFilms(
        synthetic(varied(120), { noise: 0.02, seed, truth: { ...TRUTH, wall: 1 } }),
      )!;
      for (const side of ['hot', 'cold'] as const) {
        if (Math.abs(learned.factors[side] - TRUTH[side]) <= 1.96 * learned.uncertainty[side]) held[side]++;
      }
    }
    expect(held.hot).toBeGreaterThanOrEqual(180);
    expect(held.cold).toBeGreaterThanOrEqual(180);
  });

  it('are found within three standard errors through noisy sensors', () => {
    const learned = learn(withNoise(cleanReadings(trueUnit(TRUTH), { hot: 0.3, cold: 0.3 }), exchanger, 11));
    expect(learned.doubts).toEqual([]);
    for (const side of ['hot', 'cold'] as const) {
      expect(Math.abs(learned.factors[side] - TRUTH[side])).toBeLessThan(3 * learned.uncertainty[side]);
    }
  });
});

describe('the test whether two films can be told apart', () => {
  const doubtsOf = (flows: { hot: number; cold: number }[], truth = { ...TRUTH, wall: 1 }) =>
    learnTwoFilms(synthetic(flows, { noise: 0.01, seed: 5, truth }))!.doubts;

  it('passes where both flows vary on their own', () => {
    expect(doubtsOf(varied(120))).toEqual([]);
  });

  it('fails where the flows hardly vary, and where they vary together', () => {
    const steady = Array.from({ length: 120 }, (_, i) => ({ hot: 1 + 0.01 * Math.sin(i / 7), cold: 1 }));
    expect(doubtsOf(steady)).toContain('collinear');
    const together = varied(120).map(({ hot }) => ({ hot, cold: hot }));
    expect(doubtsOf(together)).toContain('collinear');
  });

  it('fails where the flows never vary at all', () => {
    expect(doubtsOf(varied(60).map(() => ({ hot: 1, cold: 1 })))).toContain('collinear');
  });

  it('fails where one factor on the whole resistance says as much', () => {
    expect(doubtsOf(varied(120), { hot: 1.1, wall: 1.1, cold: 1.1 })).toEqual(['no-better']);
  });

  it('fails for fewer readings than a day of hourly data', () => {
    expect(doubtsOf(varied(23))).toContain('too-few');
    expect(
      learnTwoFilms(synthetic([], { noise: 0, seed: 1, truth: { hot: 1, wall: 1, cold: 1 } })),
    ).toBeNull();
  });

  it('gives no factor below 0, and says so', () => {
    const split = synthetic(varied(120), { noise: 0.01, seed: 2, truth: { hot: 2, wall: 1, cold: -0.2 } });
    const learned = learnTwoFilms(split)!;
    expect(learned.factors.cold).toBe(0);
    expect(learned.doubts).toContain('negative');
    // Brute force over the hot factor alone, at the bound.
    const misfit = (hot: number) =>
      split.total.reduce(
        (sum, total, i) => sum + ((total - split.wall - hot * split.hot[i]!) / split.uncertainty[i]!) ** 2,
        0,
      );
    const best = learned.factors.hot;
    expect(misfit(best)).toBeLessThan(misfit(best * 1.001));
    expect(misfit(best)).toBeLessThan(misfit(best * 0.999));
  });
});
