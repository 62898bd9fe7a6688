import { leastSquares } from '@/lib/core/fit/least-squares';
import { fitNonlinear } from '@/lib/core/fit/nonlinear';
import { readPublished } from '../../support/published-data';
import type { Check, Row } from './check';
import { relative } from './tolerance';

type Certified = {
  parameters: number[];
  standard_deviations: number[];
  residual_standard_deviation: number;
  residual_sum_of_squares?: number;
};
type DataSet = {
  name: string;
  kind: 'nonlinear' | 'linear';
  start1?: number[];
  start2?: number[];
  certified: Certified;
  x?: number[];
  'x1..x6'?: number[][];
  y: number[];
};

const { cases } = readPublished<{ cases: DataSet[] }>('nist-strd');

/** The sets of the file that are fitted by iteration. */
export const nonlinearSets = cases.filter((one) => one.kind === 'nonlinear');

const saturating = (b: Float64Array, x: number) => b[0]! * -Math.expm1(-b[1]! * x);
export const MODELS: Record<string, (b: Float64Array, x: number) => number> = {
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

const PARAMETERS = relative(1e-6, 'the file; certified to 11 digits');
const ERRORS = relative(1e-4, 'the file');
const SQUARES = relative(1e-8, 'certified to 11 digits');
const LINEAR = relative(1e-8, 'the file');

/** How each parameter changes when y is multiplied by a factor. */
function scaleOfParameters(name: string, unit: number): number[] {
  if (name === 'Chwirut2') return [1, 1 / unit, 1 / unit];
  if (name === 'Thurber') return [unit, unit, unit, unit, 1, 1, 1];
  return [unit, 1];
}

type Fitted = { at: string; parameters: number[]; errors: number[]; squares: number; deviation: number };

/** From both starts, and with y in units of 1 and 1e7: fouling resistances are of the order 1e-5 and the fit must not notice. */
function fittedBothWays(one: DataSet): Fitted[] {
  return (['start1', 'start2'] as const).flatMap((start) =>
    [1, 1e-7].map((unit) => {
      const scale = scaleOfParameters(one.name, unit);
      const fit = fitNonlinear({
        model: MODELS[one.name]!,
        x: one.x!,
        y: one.y.map((y) => y * unit),
        start: one[start]!.map((value, j) => value * scale[j]!),
      });
      if (!fit.isConverged) throw new RangeError(`${one.name} from ${start} did not converge`);
      return {
        at: `from ${start}, y × ${unit}`,
        parameters: Array.from(fit.parameters, (value, j) => value / scale[j]!),
        errors: Array.from(fit.standardErrors, (value, j) => value / scale[j]!),
        squares: fit.residualSumOfSquares / unit ** 2,
        deviation: Math.sqrt(fit.residualVariance) / unit,
      };
    }),
  );
}

function listed(at: string, ours: ArrayLike<number>, theirs: number[]): Row[] {
  return theirs.map((value, j) => ({ at: `b${j + 1}${at && `, ${at}`}`, theirs: value, ours: ours[j]! }));
}

function nonlinearChecks(one: DataSet): Check[] {
  const fits = fittedBothWays(one);
  const { certified } = one;
  const common = { unit: '–', source: 'NIST StRD', origin: 'printed', isIterated: true } as const;
  return [
    {
      ...common,
      id: one.name,
      quantity: 'parameters of the fit',
      tolerance: PARAMETERS,
      rows: fits.flatMap(({ at, parameters }) => listed(at, parameters, certified.parameters)),
    },
    {
      ...common,
      id: one.name,
      quantity: 'standard errors of the parameters',
      tolerance: ERRORS,
      rows: fits.flatMap(({ at, errors }) => listed(at, errors, certified.standard_deviations)),
    },
    {
      ...common,
      id: one.name,
      quantity: 'residual sum of squares',
      tolerance: SQUARES,
      rows: fits.map(({ at, squares }) => ({
        at,
        theirs: certified.residual_sum_of_squares!,
        ours: squares,
      })),
    },
    {
      ...common,
      id: one.name,
      quantity: 'residual standard deviation',
      tolerance: SQUARES,
      rows: fits.map(({ at, deviation }) => ({
        at,
        theirs: certified.residual_standard_deviation,
        ours: deviation,
      })),
    },
  ];
}

function linearChecks(one: DataSet): Check[] {
  const rows = one['x1..x6'];
  const predictors = rows ? rows[0]!.map((_, j) => rows.map((row) => row[j]!)) : [one.x!];
  const ones = one.y.map(() => 1);
  const fit = leastSquares(one.name === 'NoInt1' ? predictors : [ones, ...predictors], one.y);
  const { certified } = one;
  const common = {
    unit: '–',
    source: 'NIST StRD',
    origin: 'printed',
    tolerance: LINEAR,
    isIterated: true,
  } as const;
  return [
    {
      ...common,
      id: one.name,
      quantity: 'parameters of the fit',
      rows: listed('', fit.parameters, certified.parameters),
    },
    {
      ...common,
      id: one.name,
      quantity: 'standard errors of the parameters',
      rows: listed('', fit.standardErrors, certified.standard_deviations),
    },
    {
      ...common,
      id: one.name,
      quantity: 'residual standard deviation',
      rows: [
        { at: '', theirs: certified.residual_standard_deviation, ours: Math.sqrt(fit.residualVariance) },
      ],
    },
  ];
}

export function nistChecks(): Check[] {
  return cases.flatMap((one) => (one.kind === 'nonlinear' ? nonlinearChecks(one) : linearChecks(one)));
}
