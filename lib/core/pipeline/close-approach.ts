import { REASON_BIT } from '../checks/reasons';
import { isCoCurrent } from '../exchange/direction';
import type { Exchanger, TemperatureSensor } from '../exchange/exchanger';
import { maximumEffectiveness } from '../exchange/maximum-effectiveness';
import { capacityRatio, smallerSide } from '../exchange/rating';
import { changesPhase } from '../fluids/make-fluid';
import type { EvaluationColumns } from '../fouling/evaluation-columns';
import { standardUncertainty } from '../fouling/unit-model';
import type { ReadingColumns } from '../series/reading-columns';
import { median } from '../stats/quantile';

const DAY_MS = 86_400_000;
/** Readings of these last days are looked at [d]: as long as recent conditions are. */
export const APPROACH_DAYS = 14;
/** Relative standard uncertainty of U above which it is called ill-determined [-] (own choice: twice it hides a fifth of U). */
const ILL_DETERMINED = 0.1;
/** So it is where more of the readings than this are left out for their terminal difference [-] (own choice). */
const MANY_TOO_CLOSE = 0.1;
/** An approach below this many of its own standard uncertainties is what makes U uncertain [-] (own choice). */
const CLOSE_MULTIPLE = 10;
/** So is an effectiveness above this share of the greatest the arrangement can reach [-] (own choice). */
const NEAR_MAXIMUM = 0.95;

/** One terminal difference: the temperatures it lies between, its size and its standard uncertainty [K]. */
export type TerminalDifference = {
  warm: 'hotIn' | 'hotOut';
  cold: 'coldIn' | 'coldOut';
  difference: number;
  uncertainty: number;
};

/** How well U is determined of late, and by what it is limited. */
export type ConductanceCertainty = {
  /** Median of u(U)/U [-]. */
  relativeUncertainty: number;
  /** The smaller of the two terminal differences. */
  approach: TerminalDifference;
  effectiveness: number;
  greatestEffectiveness: number;
  /** Readings looked at, and how many of them were left out for their terminal difference. */
  readings: number;
  tooClose: number;
  /** What makes U ill-determined; null where it is not, or something else does. */
  cause: 'approach' | 'effectiveness' | null;
};

export type CertaintyInput = {
  evaluation: EvaluationColumns;
  readings: ReadingColumns;
  exchanger: Exchanger;
  /** "Today" [ms]. */
  now: number;
};

/**
 * How well U is determined by the readings of the last days, accepted or left out for their terminal difference alone:
 * U follows from the logarithm of the terminal differences, so that it is lost where one of them sinks into the
 * uncertainty of its two thermometers, or where the effectiveness comes near the most that any U could give.
 *
 * @param input evaluated readings [°C, kg/s], the unit and today [ms]
 * @returns medians over the last 14 days [K, -] and the cause; null without such readings
 * @range  any; for a stream that changes phase its end is its saturation temperature
 * @source JCGM 100:2008 (GUM), 5.1.2: u(U)/U grows as u(ΔT)/ΔT times ∂ln NTU/∂ln ΔT; thresholds own choice
 * @check  tests/core/pipeline/close-approach.test.ts
 */
export function conductanceCertainty(input: CertaintyInput): ConductanceCertainty | null {
  const rows = recentRows(input);
  if (rows.length === 0) return null;
  const { evaluation } = input;
  const of = (column: ArrayLike<number>) =>
    median(rows.map((i) => column[i]!).filter((value) => !Number.isNaN(value)));
  const approach = smallerApproach(input, rows);
  if (approach === null) return null;
  const relativeUncertainty = median(
    rows.map((i) => evaluation.overallUUncertainty[i]! / evaluation.overallU[i]!),
  );
  const effectiveness = of(evaluation.effectiveness);
  const greatestEffectiveness = greatestOf(input, of);
  const tooClose = rows.filter((i) => evaluation.reasons[i] !== 0).length;
  const isIll = relativeUncertainty > ILL_DETERMINED || tooClose > MANY_TOO_CLOSE * rows.length;
  const isClose = approach.difference < CLOSE_MULTIPLE * approach.uncertainty;
  const isNearMaximum = effectiveness > NEAR_MAXIMUM * greatestEffectiveness;
  const cause = isClose ? 'approach' : isNearMaximum ? 'effectiveness' : null;
  return {
    relativeUncertainty,
    approach,
    effectiveness,
    greatestEffectiveness,
    readings: rows.length,
    tooClose,
    cause: isIll ? cause : null,
  };
}

/** Rows of the last days whose U could be worked out, if with too small a terminal difference. */
function recentRows({ evaluation, now }: CertaintyInput): number[] {
  const { time, reasons, overallU, overallUUncertainty } = evaluation;
  const rows: number[] = [];
  for (let i = time.length - 1; i >= 0 && time[i]! > now - APPROACH_DAYS * DAY_MS; i--) {
    const isLookedAt = (reasons[i]! & ~REASON_BIT['terminal-difference-too-small']) === 0;
    if (isLookedAt && overallU[i]! > 0 && overallUUncertainty[i]! > 0) rows.push(i);
  }
  return rows;
}

function smallerApproach(input: CertaintyInput, rows: number[]): TerminalDifference | null {
  const isParallel = isCoCurrent(input.exchanger.arrangement);
  const ends = [
    terminalDifference(input, rows, { warm: 'hotIn', cold: isParallel ? 'coldIn' : 'coldOut' }),
    terminalDifference(input, rows, { warm: 'hotOut', cold: isParallel ? 'coldOut' : 'coldIn' }),
  ].filter((end) => !Number.isNaN(end.difference));
  const least = Math.min(...ends.map(({ difference }) => difference));
  return ends.find(({ difference }) => difference === least) ?? null;
}

function terminalDifference(
  { readings, exchanger }: CertaintyInput,
  rows: number[],
  { warm, cold }: Pick<TerminalDifference, 'warm' | 'cold'>,
): TerminalDifference {
  // A stream that changes phase has one temperature from end to end: that of its vapour.
  const atWarm = changesPhase(exchanger.hot) ? 'hotIn' : warm;
  const atCold = changesPhase(exchanger.cold) ? 'coldOut' : cold;
  const difference = median(
    rows.map((i) => readings[atWarm][i]! - readings[atCold][i]!).filter((value) => !Number.isNaN(value)),
  );
  const uncertaintyOf = (sensor: TemperatureSensor) =>
    standardUncertainty(exchanger.sensors[sensor], median(rows.map((i) => readings[sensor][i]!)));
  return { warm, cold, difference, uncertainty: Math.hypot(uncertaintyOf(atWarm), uncertaintyOf(atCold)) };
}

function greatestOf(
  { evaluation, readings, exchanger }: CertaintyInput,
  of: (column: ArrayLike<number>) => number,
): number {
  const duty = of(evaluation.duty);
  const rate = (side: 'hot' | 'cold') => {
    if (changesPhase(exchanger[side])) return Number.POSITIVE_INFINITY;
    return duty / Math.abs(of(readings[`${side}In`]) - of(readings[`${side}Out`]));
  };
  const [hot, cold] = [rate('hot'), rate('cold')];
  return maximumEffectiveness(exchanger.arrangement, capacityRatio(hot, cold), smallerSide(hot, cold));
}
