import { describe, expect, it } from 'vitest';
import { cycleEvidence, fitGrowth } from '@/lib/core/growth/fit-growth';
import { GROWTH_FORMS } from '@/lib/core/growth/form-grid';
import type { GrowthModelName } from '@/lib/core/growth/growth';
import { expectedForms, expectedFromLike, logDensityAt, typicalForms } from '@/lib/core/growth/pool-forms';
import { makeRandom } from '@/lib/core/stats/random';
import { LIMIT, observeCycle } from '../../support/growth-cycles';

const DAYS = 240;

/** Figures of a cycle of a known form, at 5 % noise. */
function figuresOf(form: (t: number) => number, seed: number) {
  const random = makeRandom(seed);
  const smooth = (t: number) => (LIMIT * form(t)) / form(DAYS);
  return observeCycle(random, { kind: 'linear', lifeDays: DAYS, smooth, autocorrelation: 0.3 }, DAYS);
}

const power = (exponent: number) => (t: number) => t ** exponent;
const towards = (timeConstant: number) => (t: number) => -Math.expm1(-t / timeConstant);
const typicalOf = (form: (t: number) => number, count: number, seed = 1) =>
  typicalForms(Array.from({ length: count }, (_, i) => cycleEvidence(figuresOf(form, seed + i))));
const shareOf = (typical: Float64Array, name: GrowthModelName) =>
  GROWTH_FORMS.reduce((sum, form, f) => sum + (form.name === name ? typical[f]! : 0), 0);

describe('the form that is typical of a unit', () => {
  it('is open without a cycle: every model as likely, every shape of it too', () => {
    const typical = typicalForms([]);
    expect(typical.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 12);
    for (const name of ['none', 'linear', 'delayed-linear', 'falling-rate', 'asymptotic'] as const)
      expect(shareOf(typical, name)).toBeCloseTo(0.2, 12);
    const { votes, logDensity } = expectedForms(typical);
    for (const vote of Object.values(votes)) expect(vote).toBeCloseTo(1, 12);
    // Shapes spread over the ends of the scale: close to even, not exactly.
    for (const value of logDensity) expect(Math.abs(value)).toBeLessThan(1);
  });

  it('is what its cycles were, the surer the more there are', () => {
    const shares = [1, 3, 6].map((count) => shareOf(typicalOf(towards(100), count), 'asymptotic'));
    expect(shares[1]!).toBeGreaterThan(0.8);
    expect(shares[2]!).toBeGreaterThan(0.95);
    expect(shareOf(typicalOf(power(0.5), 6), 'falling-rate')).toBeGreaterThan(0.8);
    expect(
      shareOf(
        typicalOf((t) => Math.max(0, t - 80), 6),
        'delayed-linear',
      ),
    ).toBeGreaterThan(0.95);
  });

  it('does not hang on the order of the cycles', () => {
    const evidences = [1, 2, 3].map((seed) => cycleEvidence(figuresOf(power(0.6), seed)));
    const forward = typicalForms(evidences);
    const backward = typicalForms([...evidences].reverse());
    for (const [f, value] of forward.entries()) expect(backward[f]!).toBeCloseTo(value, 12);
  });

  it('leads to expect the shape it had, and rules nothing out', () => {
    const prior = expectedForms(typicalOf(towards(100), 6));
    const density = [20, 100, 600].map((shape) => logDensityAt(prior, 'asymptotic', shape));
    expect(density[1]! - density[0]!).toBeGreaterThan(2);
    expect(density[1]! - density[2]!).toBeGreaterThan(2);
    for (const value of prior.logDensity) expect(value).toBeGreaterThanOrEqual(Math.log(1e-6));
    for (const vote of Object.values(prior.votes)) expect(vote).toBeGreaterThan(0.09);
  });

  it('of like units leads to expect the same, more loosely', () => {
    const typical = typicalOf(towards(100), 6);
    const own = expectedForms(typical);
    const like = expectedFromLike([typical, typical]);
    expect(like.votes.asymptotic).toBeGreaterThan(1.5);
    expect(like.votes.asymptotic).toBeLessThan(own.votes.asymptotic);
    expect(logDensityAt(like, 'asymptotic', 30)).toBeGreaterThan(logDensityAt(own, 'asymptotic', 30));
  });

  it('is interpolated between the shapes it is kept on, and held beyond the last of them', () => {
    const prior = expectedForms(typicalOf(power(0.5), 3));
    const shapes = GROWTH_FORMS.filter(({ name }) => name === 'falling-rate').map(({ shape }) => shape);
    const at = (shape: number) => logDensityAt(prior, 'falling-rate', shape);
    expect(at((shapes[3]! + shapes[4]!) / 2)).toBeCloseTo((at(shapes[3]!) + at(shapes[4]!)) / 2, 9);
    expect(at(0.01)).toBe(at(shapes[0]!));
    expect(at(1)).toBe(at(shapes.at(-1)!));
    expect(logDensityAt(prior, 'linear', 0)).toBe(0);
  });
});

describe('a cycle half over whose unit has had six before', () => {
  it('takes their form where its own figures leave it open', () => {
    const forms = expectedForms(typicalOf(towards(100), 6));
    const half = (seed: number) => {
      const figures = figuresOf(towards(100), seed);
      const until = figures.ageDays.findIndex((age) => age > 60);
      return {
        ageDays: figures.ageDays.slice(0, until),
        foulingResistance: figures.foulingResistance.slice(0, until),
        uncertainty: figures.uncertainty.slice(0, until),
      };
    };
    for (const seed of [101, 102, 103, 104]) {
      const weight = (growth: ReturnType<typeof fitGrowth>) =>
        growth.models.find(({ name }) => name === 'asymptotic')!.weight;
      const alone = fitGrowth(half(seed));
      const informed = fitGrowth({ ...half(seed), forms });
      expect(weight(informed)).toBeGreaterThan(0.7);
      expect(weight(informed)).toBeGreaterThan(weight(alone));
      expect(informed.isFormExpected).toBe(true);
      expect(alone.isFormExpected).toBe(false);
    }
  });
});
