import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { Truth } from '@/seed/generate/generate-readings';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';
import { crossingAge } from '@/seed/generate/true-growth';
import { type DailyNoise, noiseOf } from './daily-noise';
import type { History } from './draw-history';
import type { Mechanism } from './ranges';
import { type SpreadsheetColumn, straightLineCrossing } from './spreadsheet-line';

/** Shares of a cycle's true life at which it is judged. */
export const SHARES = [0.25, 0.5, 0.75] as const;

const A_DAY = 1;

/** A question put to the product and to the line: when is the limit reached, with what is known at the end of a day. */
export type Question = {
  shareOfLife: number;
  /** Last instant of the day [ms], and the local day. */
  asOf: number;
  today: number;
  /** The straight line's answer as a local day; Infinity where it never crosses. */
  lineDay: number;
};

export type SimulatedCycle = {
  mechanism: Mechanism;
  hasChanged: boolean;
  /** Cycles of the record before it, the one running when it began included unless the record holds its last day alone. */
  earlier: number;
  /**
   * First local day at whose midday the true growth is at the limit, and the life until then [days]; of a unit that learned
   * what clean is, beyond the deposit it then had.
   */
  truthDay: number;
  lifeDays: number;
  /** The same day by the true growth as far off as the cycle's figures are on the whole: no projection can know better. */
  seenDay: number;
  noise: DailyNoise;
  questions: Question[];
};

export type CyclesInput = {
  history: History;
  truth: Truth;
  spreadsheet: SpreadsheetColumn;
  daily: DailyColumns;
  /** Deposit that a learned reference takes for clean [m²·K/W]. */
  countedAsClean: number;
  /** Of each daily figure, as share of the limit. */
  errors: Float64Array;
};

/** The cycles that begin in the record and would reach the limit, with the questions put in each. */
export function simulatedCycles(input: CyclesInput): SimulatedCycle[] {
  const { history, truth, daily } = input;
  const level = truth.limit + input.countedAsClean;
  const seenBefore = history.cycles[0]!.endDays > A_DAY ? 1 : 0;
  return truth.cycles.slice(1).flatMap(({ start, growth }, index) => {
    const lifeDays = crossingAge(growth, level);
    if (lifeDays === null) return [];
    const { mechanism, hasChanged } = history.cycles[index + 1]!;
    const noise = noiseOf(errorsWithin(input, dayOf(start), dayOf(start + lifeDays * MS_PER_DAY)));
    const seenAge = crossingAge(growth, level - truth.limit * noise.offset) ?? Number.POSITIVE_INFINITY;
    // A unit cleaned a little before its limit is asked for no more once it has been.
    const lastDay = dayOf(truth.cycles[index + 2]?.start ?? Number.POSITIVE_INFINITY) - 1;
    const questions = SHARES.map((share) => questionAt(input, { start, lifeDays }, share));
    return {
      ...{ mechanism, hasChanged, lifeDays, noise },
      earlier: index + seenBefore,
      truthDay: dayAtLimit(start + lifeDays * MS_PER_DAY),
      seenDay: dayAtLimit(start + seenAge * MS_PER_DAY),
      questions: questions.filter(({ today }) => today <= Math.min(lastDay, daily.day.at(-1)!)),
    };
  });
}

/** The line begins at the last cleaning that somebody wrote down. */
function questionAt(
  { truth, spreadsheet }: CyclesInput,
  { start, lifeDays }: { start: number; lifeDays: number },
  shareOfLife: number,
): Question {
  const today = dayOf(start + shareOfLife * lifeDays * MS_PER_DAY);
  const asOf = (today + 1) * MS_PER_DAY - 1;
  const cleaning = truth.cleanings.findLast(({ at, isRecorded }) => isRecorded && at <= asOf);
  const from = cleaning?.at ?? Number.NEGATIVE_INFINITY;
  const crossing = straightLineCrossing(spreadsheet, { from, to: asOf, limit: truth.limit });
  return { shareOfLife, today, asOf, lineDay: dayAtLimit(crossing) };
}

function errorsWithin({ daily, errors }: CyclesInput, from: number, to: number): Float64Array {
  return errors.filter((_, row) => daily.day[row]! > from && daily.day[row]! <= to);
}

/** Local day of an instant: the simulated sites keep UTC. */
export function dayOf(instant: number): number {
  return Math.floor(instant / MS_PER_DAY);
}

/** The first day whose figure, of its midday, is at the limit: what the product's days mean. */
function dayAtLimit(instant: number): number {
  return Math.ceil(instant / MS_PER_DAY - 0.5);
}
