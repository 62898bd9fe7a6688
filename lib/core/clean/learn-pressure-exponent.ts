import type { Exchanger, Side } from '../exchange/exchanger';
import { huberFit } from '../fit/huber';
import type { EvaluationColumns } from '../fouling/evaluation-columns';
import type { ReadingColumns } from '../series/reading-columns';
import { lagOneAutocorrelation } from '../stats/autocorrelation';
import { median } from '../stats/quantile';
import { weightedLine } from '../stats/weighted-line';

const DAY_MS = 86_400_000;
/** Readings this long after the first accepted one teach the exponent [d]: a weekend is among them (own choice). */
export const EXPONENT_DAYS = 10;
/** Fewest accepted readings with a pressure drop that may teach it [-] (two days of hourly data; own choice). */
export const FEWEST_EXPONENT_READINGS = 48;
/** Largest standard uncertainty of an exponent that may be used [-]: 2 % of Δp where the flow is 20 % off (own choice). */
export const LARGEST_EXPONENT_UNCERTAINTY = 0.1;
/** Exponents that one channel can have [-]: 1 is laminar, 2 fully rough; with room for the error of the fit (own choice). */
const LEAST_EXPONENT = 1.2;
const GREATEST_EXPONENT = 2.2;
/** Parameters of the fit: level, drift over the days, exponent. */
const PARAMETERS = 3;

/** Exponent of pressure drop on mass flow as the readings of a clean unit show it, and the evidence. */
export type LearnedExponent = {
  /** m and its standard uncertainty [-]. */
  exponent: number;
  uncertainty: number;
  /** Whether the flow varied enough: u(m) ≤ 0.1 and 1.2 ≤ m ≤ 2.2. */
  isIdentifiable: boolean;
  /** Instants of the first and last reading used [ms], their number, and the standard deviation of ln ṁ among them [-]. */
  from: number;
  to: number;
  readings: number;
  flowSpread: number;
};

export type ExponentInput = {
  evaluation: EvaluationColumns;
  /** Pressure drops [Pa], same rows. */
  readings: ReadingColumns;
  exchanger: Exchanger;
  side: Side;
  /** Instant from which the unit was clean [ms]. */
  start: number;
};

/**
 * Learns the exponent m of Δp ∝ ṁ^m from the accepted readings of the first days after a cleaning: a line of ln Δp over
 * ln ṁ with Huber weights, a drift over the days taken out (fouling begins at once), and the flow's own random error
 * allowed for by Deming's line. Half of that correction counts as uncertainty beside the standard error, which allows
 * for the autocorrelation of flow and residuals.
 *
 * @param input evaluated readings with their pressure drops [Pa], the unit, the side and the cleaning [ms]
 * @returns exponent ± [-] with its evidence; null with fewer than 48 accepted readings within 10 days or a constant flow
 * @range  one flow regime; sensors whose random errors stand in the ratio that the datasheet states
 * @source Deming's line: Fuller, Measurement Error Models, 1987, sect. 1.3; Bayley & Hammersley, Suppl. J. R. Stat. Soc. 8
 *   (1946) 184-197 (autocorrelation)
 * @check  tests/core/clean/learn-pressure-exponent.test.ts
 */
export function learnPressureExponent(input: ExponentInput): LearnedExponent | null {
  const { evaluation, exchanger, side } = input;
  const rows = learningRows(input);
  if (rows.length < FEWEST_EXPONENT_READINGS) return null;
  const { time } = evaluation;
  const from = time[rows[0]!]!;
  const days = rows.map((i) => (time[i]! - from) / DAY_MS);
  const logFlow = rows.map((i) =>
    Math.log(evaluation[`${side}MassFlow`][i]! / exchanger.design[`${side}Flow`]),
  );
  const drops = rows.map((i) => input.readings[`${side}PressureDrop`][i]!);
  const line = fitLine({
    days,
    logFlow,
    logDrop: drops.map(Math.log),
    ratio: errorRatio(input, rows, drops),
  });
  if (!Number.isFinite(line.exponent) || !Number.isFinite(line.uncertainty)) return null;
  return {
    ...line,
    isIdentifiable: isIdentifiable(line),
    from,
    to: time[rows.at(-1)!]!,
    readings: rows.length,
  };
}

function isIdentifiable({ exponent, uncertainty }: { exponent: number; uncertainty: number }): boolean {
  const isPossible = exponent >= LEAST_EXPONENT && exponent <= GREATEST_EXPONENT;
  return isPossible && uncertainty <= LARGEST_EXPONENT_UNCERTAINTY;
}

function learningRows({ evaluation, readings, side, start }: ExponentInput): number[] {
  const { time, reasons } = evaluation;
  const drop = readings[`${side}PressureDrop`];
  const flow = evaluation[`${side}MassFlow`];
  const rows: number[] = [];
  for (let i = 0; i < time.length; i++) {
    const isUsable = reasons[i] === 0 && drop[i]! > 0 && Number.isFinite(drop[i]!) && flow[i]! > 0;
    if (time[i]! < start || !isUsable) continue;
    if (rows.length > 0 && time[i]! >= time[rows[0]!]! + EXPONENT_DAYS * DAY_MS) break;
    rows.push(i);
  }
  return rows;
}

/** Variance of the random error of ln Δp over that of ln ṁ [-]; Infinity where the flow is taken as exact. */
function errorRatio({ exchanger, evaluation, side }: ExponentInput, rows: number[], drops: number[]): number {
  const relative = (sensor: 'Flow' | 'PressureDrop', typical: number) => {
    const { absolute, relative: share, systematicShare } = exchanger.sensors[`${side}${sensor}`];
    return (share + absolute / typical) ** 2 * (1 - systematicShare);
  };
  const flow = median(rows.map((i) => evaluation[`${side}MassFlow`][i]!));
  return relative('PressureDrop', median(drops)) / relative('Flow', flow);
}

type Points = { days: number[]; logFlow: number[]; logDrop: number[]; ratio: number };

function fitLine({ days, logFlow, logDrop, ratio }: Points) {
  const ones = days.map(() => 1);
  const { weights } = huberFit([ones, days, logFlow], logDrop);
  const x = withoutDrift(days, logFlow, weights);
  const y = withoutDrift(days, logDrop, weights);
  const sum = (a: number[], b: number[]) =>
    weights.reduce((total, weight, i) => total + weight * a[i]! * b[i]!, 0);
  const [xx, xy, yy] = [sum(x, x), sum(x, y), sum(y, y)];
  const plain = xy / xx;
  const exponent = Number.isFinite(ratio) ? demingSlope({ xx, xy, yy, ratio }) : plain;
  const residuals = y.map((value, i) => value - plain * x[i]!);
  const variance = sum(residuals, residuals) / (days.length - PARAMETERS);
  const standardError = Math.sqrt((variance / xx) * inflation(x, residuals));
  return {
    exponent,
    uncertainty: Math.hypot(standardError, (exponent - plain) / 2),
    flowSpread: Math.sqrt(xx / weights.reduce((total, weight) => total + weight, 0)),
  };
}

/** What a straight line over the days leaves of a series. */
function withoutDrift(days: number[], values: number[], weights: Float64Array): number[] {
  const { intercept, slope } = weightedLine(days, values, weights);
  return values.map((value, i) => value - intercept - slope * days[i]!);
}

/**
 * Slope of the line through points with errors in both coordinates, the ratio of whose variances is known (Deming).
 *
 * @param sums xx, xy, yy: sums of squares and products about the mean [any unit]; ratio: variance of the error of y over that of x
 * @returns slope [unit of y over unit of x]
 * @range  ratio ≥ 0; xy not 0
 * @source Fuller, Measurement Error Models, 1987, eq. 1.3.7
 * @check  tests/core/clean/learn-pressure-exponent.test.ts
 */
export function demingSlope({
  xx,
  xy,
  yy,
  ratio,
}: {
  xx: number;
  xy: number;
  yy: number;
  ratio: number;
}): number {
  const difference = yy - ratio * xx;
  return (difference + Math.sqrt(difference ** 2 + 4 * ratio * xy ** 2)) / (2 * xy);
}

/** By how much the variance of a slope grows where flow and residuals both remember the reading before; never below 1. */
function inflation(x: number[], residuals: number[]): number {
  const product = lagOneAutocorrelation(x) * lagOneAutocorrelation(residuals);
  return Math.max(1, (1 + product) / (1 - product));
}
