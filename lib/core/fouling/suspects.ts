import { REASON_BIT } from '../checks/reasons';
import { BALANCE_SENSORS } from '../exchange/reconcile';
import { firstNotBefore } from '../series/first-not-before';
import { type ReadingColumns, sliceReadings } from '../series/reading-columns';
import { lagOneAutocorrelation } from '../stats/autocorrelation';
import type { EvaluationColumns } from './evaluation-columns';
import { type Explanation, explainImbalance, reduceImbalances } from './explain-imbalance';
import { type PeriodImbalances, type UsedReadings, usedRows, weighImbalances } from './period-imbalances';
import type { UnitModel } from './unit-model';

const DAY_MS = 86_400_000;
/** Length of record looked at, back from the newest reading with a balance [d]. */
const SUSPECT_DAYS = 30;
/** Fewest blocks of six hours that say anything of one sensor against another [-] (two days). */
const FEWEST_BLOCKS = 8;
/** The mean imbalance is off beyond this many of its standard uncertainties: 1 % of sound units at most [-]. */
const OFF_MULTIPLE = 2.58;
/** Two explanations whose χ² differ by less than this cannot be told apart: χ² of one degree of freedom, 5 % [-]. */
export const TIED_CHI_SQUARED = 3.84;

/** One sensor as the only one to be off by more than it states. */
export type Suspect = {
  /** Place in `BALANCE_SENSORS`. */
  place: number;
  /** Constant bias [K], or share of the flow [-]; > 0 where it reads too much. */
  bias: number;
  biasUncertainty: number;
  /** χ² it takes away from what every sensor within its stated uncertainty leaves [-]. */
  explained: number;
  /** True where the period cannot tell it from the first of the list. */
  isTied: boolean;
};

/** What the imbalances of a period say of its sensors. */
export type SuspectRanking = {
  /** Readings with a balance behind it, and the first and last of them [ms]. */
  readings: number;
  from: number;
  to: number;
  /** Mean of (Qh − Qc)/duty [-] with the standard uncertainty the sensors state for it. */
  meanBalance: number;
  meanBalanceUncertainty: number;
  /** Whether the mean imbalance lies beyond what the sensors state; where it does not, nobody is a suspect. */
  isOff: boolean;
  /** The most explaining first; empty where the balance is not off. */
  suspects: Suspect[];
};

/**
 * Ranks the sensors by how well a constant bias of each alone (temperature: K, flow: share) explains the imbalances of the
 * last 30 days with a balance: weighted least squares over changing conditions, every other sensor within its stated
 * systematic uncertainty. Readings left out only for their balance count too, or the evidence would be lost with them.
 *
 * The two thermometers of a stream shift its duty alike and so do the two meters, so that a balance hardly ever tells them
 * apart: explanations that leave χ² within 3.84 of the best one's are marked as tied. The scatter the sensors do not explain
 * and its autocorrelation widen everything. It ranks suspects and blames none.
 *
 * @param model      the unit
 * @param readings   columns of length n
 * @param evaluation the same readings evaluated
 * @returns the ranking; null with less than two days of readings that have a balance
 * @range  any
 * @source METHODS §3; generalised least squares: Rao & Toutenburg, Linear Models, 1999, ch. 4; global test: Almásy & Sztanó,
 *   Probl. Control Inf. Theory 4 (1975) 57-69
 * @check  tests/core/fouling/suspects.test.ts (simulated histories of known bias)
 */
export function rankSuspects(
  model: UnitModel,
  readings: ReadingColumns,
  evaluation: EvaluationColumns,
): SuspectRanking | null {
  const last = evaluation.time.findLastIndex((_, i) => hasBalance(evaluation, i));
  if (last < 0) return null;
  const to = evaluation.time[last]!;
  const start = firstNotBefore(evaluation.time, to - SUSPECT_DAYS * DAY_MS);
  const rows: number[] = [];
  for (let i = start; i <= last; i++) if (hasBalance(evaluation, i)) rows.push(i - start);
  const used = usedRows(model, sliceReadings(readings, start, last + 1), rows);
  if (used.blocks.at(-1)! + 1 < FEWEST_BLOCKS) return null;
  const period = weighImbalances(model, used, new Float64Array(BALANCE_SENSORS.length));
  const variance = scatterOf(period);
  const mean = meanBalance(period, variance);
  const isOff = Math.abs(mean.meanBalance) > OFF_MULTIPLE * mean.meanBalanceUncertainty;
  return {
    readings: rows.length,
    from: evaluation.time[start + rows[0]!]!,
    to,
    ...mean,
    isOff,
    suspects: isOff ? ranked(model, used, { period, variance }) : [],
  };
}

function hasBalance({ balance, duty, reasons }: EvaluationColumns, i: number): boolean {
  const isJudged = Number.isFinite(balance[i]!) && Number.isFinite(duty[i]!);
  return isJudged && (reasons[i]! & ~REASON_BIT['balance-not-closed']) === 0;
}

/** Variance of a weighted imbalance about the best explanation, autocorrelation counted in; at least 1, what the sensors state. */
function scatterOf(period: PeriodImbalances): number {
  const { errors } = bestOf(explanations(period, 1));
  const left = period.imbalance.slice();
  period.shapes.forEach((shape, j) => {
    for (let row = 0; row < left.length; row++) left[row]! -= errors[j]! * shape[row]!;
  });
  const autocorrelation = Math.min(0.99, Math.max(0, lagOneAutocorrelation(left)));
  const square = left.reduce((sum, value) => sum + value * value, 0) / (left.length - 1);
  return Math.max(1, (square * (1 + autocorrelation)) / (1 - autocorrelation));
}

function explanations(period: PeriodImbalances, variance: number): Explanation[] {
  const reduced = reduceImbalances(period);
  return period.places.map((_, suspect) => explainImbalance(reduced, suspect, variance));
}

function bestOf(all: Explanation[]): Explanation {
  return all.reduce((best, one) => (one.chiSquared < best.chiSquared ? one : best));
}

function meanBalance(
  { shapes, imbalance, duty, systematic }: PeriodImbalances,
  variance: number,
): Pick<SuspectRanking, 'meanBalance' | 'meanBalanceUncertainty'> {
  const n = imbalance.length;
  const meanOf = (values: Float64Array) =>
    values.reduce((sum, value, row) => sum + value / duty[row]!, 0) / n;
  let square = duty.reduce((sum, value) => sum + variance / (value * value), 0) / (n * n);
  shapes.forEach((shape, j) => {
    square += (meanOf(shape) * systematic[j]!) ** 2;
  });
  return { meanBalance: meanOf(imbalance), meanBalanceUncertainty: Math.sqrt(square) };
}

function ranked(
  model: UnitModel,
  used: UsedReadings,
  { period, variance }: { period: PeriodImbalances; variance: number },
): Suspect[] {
  const reduced = reduceImbalances(period);
  const asStated = explainImbalance(reduced, -1, variance).chiSquared;
  // Each explanation is linearised anew about the state that it makes of the readings: a bias of many per cent is no small error.
  const all = period.places.map((_, j) => {
    const errors = new Float64Array(BALANCE_SENSORS.length);
    explainImbalance(reduced, j, variance).errors.forEach((error, at) => {
      errors[period.places[at]!] = error;
    });
    return explainImbalance(
      reduceImbalances(weighImbalances(model, used, errors, period.weights)),
      j,
      variance,
    );
  });
  const best = bestOf(all).chiSquared;
  return all
    .map(({ chiSquared, bias, biasUncertainty }, j) => ({
      place: period.places[j]!,
      bias,
      biasUncertainty,
      explained: asStated - chiSquared,
      isTied: chiSquared - best < TIED_CHI_SQUARED,
    }))
    .sort((a, b) => b.explained - a.explained);
}
