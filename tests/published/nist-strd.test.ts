import { describe, expect, it } from 'vitest';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { fitNonlinear } from '@/lib/core/fit/nonlinear';
import data from './data/nist-strd.json';

/** NIST/ITL Statistical Reference Datasets; certified to 11 digits. */
const PARAMETER_DIGITS = 1e-6;
const ERROR_DIGITS = 1e-4;
const SQUARES_DIGITS = 1e-8;
const LINEAR_DIGITS = 1e-8;

const saturating = (b: Float64Array, x: number) => b[0]! * -Math.expm1(-b[1]! * x);
const MODELS: Record<string, (b: Float64Array, x: number) => number> = {
  Misra1a: saturating,
  BoxBOD: saturating,
  Misra1b: (b, x) => b[0]! * (1 - (1 + (b[1]! * x) / 2) ** -2),
  Misra1c: (b, x) => b[0]! * (1 - (1 + 2 * b[1]! * x) ** -0.5),
  Misra1d: (b, x) => (b[0]! * b[1]! * x) / (1 + b[1]! * x),
  DanWood: (b, x) => b[0]! * x ** b[1]!,
  Chwirut2: (b, x) => Math.exp(-b[0]! * x) / (b[1]! + b[2]! * x),
  Thurber: (b, x) =>
    (b[0]! + x * (b[1]! + x * (b[2]! + x * b[3]!))) / (1 + x * (b[4]! + x * (b[5]! + x * b[6]!))),
};

type Case = {
  name: string;
  kind: string;
  start1?: number[];
  start2?: number[];
  certified: {
    parameters: number[];
    standard_deviations: number[];
    residual_standard_deviation: number;
    residual_sum_of_squares?: number;
    observations: number;
  };
  x?: number[];
  'x1..x6'?: number[][];
  y: number[];
};

const cases = data.cases as unknown as Case[];
const nonlinear = cases.filter((one) => one.kind === 'nonlinear');
const linear = cases.filter((one) => one.kind === 'linear');

function worst(values: number[], certified: number[]): number {
  expect(values).toHaveLength(certified.length);
  return Math.max(...values.map((value, i) => Math.abs(value / certified[i]! - 1)));
}

describe('nonlinear least squares reaches the certified values of the NIST StRD', () => {
  it('covers every nonlinear set', () =>
    expect(nonlinear.map((one) => one.name)).toEqual(Object.keys(MODELS)));

  for (const one of nonlinear) {
    for (const start of ['start1', 'start2'] as const) {
      // Relative: fouling resistances are of the order 1e-5 and the fit must not notice.
      for (const unit of [1, 1e-7]) {
        it(`${one.name} from ${start}, y in units of ${1 / unit}`, () => {
          const scale = scaleOfParameters(one.name, unit);
          const fit = fitNonlinear({
            model: MODELS[one.name]!,
            x: one.x!,
            y: one.y.map((y) => y * unit),
            start: one[start]!.map((value, j) => value * scale[j]!),
          });
          expect(fit.isConverged).toBe(true);
          expect(
            worst(
              fit.parameters.map((v, j) => v / scale[j]!),
              one.certified.parameters,
            ),
          ).toBeLessThan(PARAMETER_DIGITS);
          expect(
            worst(
              fit.standardErrors.map((v, j) => v / scale[j]!),
              one.certified.standard_deviations,
            ),
          ).toBeLessThan(ERROR_DIGITS);
          expect(
            Math.abs(fit.residualSumOfSquares / unit ** 2 / one.certified.residual_sum_of_squares! - 1),
          ).toBeLessThan(SQUARES_DIGITS);
          expect(
            Math.abs(Math.sqrt(fit.residualVariance) / unit / one.certified.residual_standard_deviation - 1),
          ).toBeLessThan(SQUARES_DIGITS);
        });
      }
    }
  }
});

/** How each parameter changes when y is multiplied by a factor. */
function scaleOfParameters(name: string, unit: number): number[] {
  if (name === 'Chwirut2') return [1, 1 / unit, 1 / unit];
  if (name === 'Thurber') return [unit, unit, unit, unit, 1, 1, 1];
  return [unit, 1];
}

describe('linear least squares reaches the certified values of the NIST StRD', () => {
  for (const one of linear) {
    it(one.name, () => {
      const ones = one.y.map(() => 1);
      const rows = one['x1..x6'];
      const predictors = rows ? rows[0]!.map((_, j) => rows.map((row) => row[j]!)) : [one.x!];
      const fit = leastSquares(one.name === 'NoInt1' ? predictors : [ones, ...predictors], one.y);
      expect(worst(fit.parameters, one.certified.parameters)).toBeLessThan(LINEAR_DIGITS);
      expect(worst(fit.standardErrors, one.certified.standard_deviations)).toBeLessThan(LINEAR_DIGITS);
      expect(
        Math.abs(Math.sqrt(fit.residualVariance) / one.certified.residual_standard_deviation - 1),
      ).toBeLessThan(LINEAR_DIGITS);
    });
  }
});
