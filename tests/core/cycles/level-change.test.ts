import { describe, expect, it } from 'vitest';
import { levelChange } from '@/lib/core/cycles/level-change';
import { lineFigures } from '@/lib/core/cycles/noisy-line';
import { stepCorrelations, whiten } from '@/lib/core/fit/autoregressive';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { makeRandom } from '@/lib/core/stats/random';
import { weightedLine } from '@/lib/core/stats/weighted-line';

/** n days on either side of a step, with slopes of their own and a ripple. */
function twoLines(n: number, phi: number) {
  const t = Float64Array.from({ length: 2 * n }, (_, i) => i);
  const y = t.map((at) => (at < n ? 2 + 0.03 * at : 1 + 0.02 * at) + 0.3 * Math.sin(1.7 * at));
  return figuresOf(t, y, phi);
}
const figuresOf = (t: Float64Array, y: Float64Array, phi: number) =>
  lineFigures({ t, y, deviation: 1, correlations: stepCorrelations(t, phi) });
const all = (figures: { t: Float64Array }) => ({ from: 0, to: figures.t.length });

describe('change of level between two figures', () => {
  // (XᵀV⁻¹X)⁻¹XᵀV⁻¹y by dense matrices in NumPy 2.
  it.each([
    [0, 14, 1.1820162304126982, 0.7171371656006362, 2.4040212687815115],
    [0, 28, 1.2799054458221568, 0.5205150916074702, 2.8276636096593815],
    [0.5, 14, 1.2915397976512202, 0.8485281374238576, 2.440174773725559],
    [0.7, 14, 1.342518440478953, 0.7401338166811857, 2.442437341482726],
    [0.7, 28, 1.5307727626571495, 0.6887462794156233, 2.970253859165775],
  ])(
    'under autocorrelation %f with %i figures on each side is that of generalised least squares',
    (phi, n, fall, uncertainty, before) => {
      const figures = twoLines(n, phi);
      const change = levelChange(figures, n, all(figures))!;
      expect(change.fall).toBeCloseTo(fall, 11);
      expect(change.uncertainty).toBeCloseTo(uncertainty, 11);
      expect(change.before).toBeCloseTo(before, 11);
      expect(change.before - change.after).toBeCloseTo(change.fall, 12);
    },
  );

  it('is that of one least-squares fit of both lines, in long cycles with gaps too', () => {
    const random = makeRandom(1);
    const days = Array.from({ length: 3000 }, (_, day) => 18_000 + day).filter(() => random.uniform() < 0.8);
    const t = Float64Array.from(days);
    const y = t.map((day) => 1e-4 + 1e-7 * (day - 18_000) + 3e-6 * random.normal());
    for (const phi of [0, 0.3, 0.8]) {
      const figures = figuresOf(t, y, phi);
      for (let place = 20; place < t.length - 20; place += 7) {
        const { from, to, fall, uncertainty } = levelChange(figures, place, all(figures))!;
        const column = (of: (i: number) => number) =>
          whiten(
            figures.correlations.slice(from, to),
            Float64Array.from({ length: to - from }, (_, i) => of(from + i)),
          );
        const before = column((i) => (i < place ? t[i]! - t[place - 1]! : 0));
        const after = column((i) => (i < place ? 0 : t[i]! - t[place]!));
        const whole = [column(() => 1), before, after, column((i) => (i < place ? 1 : 0))];
        const fit = leastSquares(
          whole,
          column((i) => y[i]!),
        );
        const expected = fit.standardErrors[3]! / Math.sqrt(fit.residualVariance);
        expect(uncertainty / expected).toBeCloseTo(1, 11);
        expect((fall - fit.parameters[3]!) / uncertainty / 3e-6).toBeCloseTo(0, 9);
      }
    }
  });

  it('without autocorrelation is between the ends of two straight lines, also across a gap', () => {
    const { t, y } = twoLines(20, 0);
    const late = t.map((at) => (at < 20 ? at : at + 31));
    const figures = figuresOf(late, y, 0);
    const before = weightedLine(late.slice(0, 20), y.slice(0, 20));
    const after = weightedLine(late.slice(20), y.slice(20));
    const change = levelChange(figures, 20, all(figures))!;
    expect(change.before).toBeCloseTo(before.intercept + before.slope * late[19]!, 11);
    expect(change.after).toBeCloseTo(after.intercept + after.slope * late[20]!, 11);
  });

  it('looks four weeks to either side, and not beyond its bounds', () => {
    const figures = twoLines(60, 0.3);
    expect(levelChange(figures, 60, all(figures))).toMatchObject({ from: 32, to: 88 });
    expect(levelChange(figures, 60, { from: 40, to: 70 })).toMatchObject({ from: 40, to: 70 });
  });

  it('takes a side of few figures as level', () => {
    const figures = twoLines(20, 0);
    const change = levelChange(figures, 20, { from: 0, to: 26 })!;
    expect(change.after).toBeCloseTo(figures.y.slice(20, 26).reduce((sum, value) => sum + value, 0) / 6, 12);
  });

  it('looks further for the fewest figures, up to twelve weeks, and is not told without them', () => {
    const weekly = Float64Array.from({ length: 12 }, (_, i) => 15 * i);
    const figures = figuresOf(weekly, weekly, 0);
    expect(levelChange(figures, 6, all(figures))).toMatchObject({ from: 1, to: 11 });
    expect(levelChange(figures, 4, all(figures))).toBeNull();
    const rare = weekly.map((at) => 2 * at);
    expect(levelChange(figuresOf(rare, weekly, 0), 6, all(figures))).toBeNull();
  });
});
