import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { nominalSensors } from '@/lib/core/checks/nominal-sensors';
import { AS_ON_DATASHEET, type CleanFactors, scaledFactors } from '@/lib/core/clean/clean-reference';
import { LEARNING_WINDOW_MS, learnScale } from '@/lib/core/clean/learn-scale';
import type { RecordedCleaning } from '@/lib/core/cycles/split-cycles';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { generateReadings, type Truth } from '@/seed/generate/generate-readings';
import { MS_PER_DAY, type TrueCycle } from '@/seed/generate/true-cycles';
import { crossingAge } from '@/seed/generate/true-growth';
import { type DailyNoise, dailyErrors, noiseOf } from './daily-noise';
import { type PlannedUnit, planSimulated } from './plan-unit';
import { type Mechanism, MOST_ATTEMPTS, seedOf, type UnitKey } from './ranges';
import { spreadsheetColumn, straightLineCrossing } from './spreadsheet-line';

/** Shares of a cycle's true life at which it is judged. */
export const SHARES = [0.25, 0.5, 0.75] as const;

const MS_PER_HOUR = 3_600_000;
/** Records end here; the seasons fall on any part of a cycle. */
const END = Date.parse('2026-06-01T00:00:00Z');

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
  /** Cycles of the record before it, the one running when it began included. */
  earlier: number;
  /** First local day at whose midday the true growth is at the limit, and the life until then [days]. */
  truthDay: number;
  lifeDays: number;
  /** The same day by the true growth as far off as the cycle's figures are on the whole: no projection can know better. */
  seenDay: number;
  noise: DailyNoise;
  questions: Question[];
};

/** Everything a judge needs of a unit: what the product would have stored, what was asked, and what is true. */
export type SimulatedUnit = {
  key: UnitKey;
  exchanger: Exchanger;
  daily: DailyColumns;
  cleanings: RecordedCleaning[];
  cycles: SimulatedCycle[];
};

/** One unit's record by the forward model, evaluated as the product does it. Same key, same unit. */
export function simulateUnit(key: UnitKey): SimulatedUnit {
  const { planned, readings, truth } = generate(key);
  const recorded = truth.cleanings.filter(({ isRecorded }) => isRecorded).map(({ at }) => at);
  const exchanger = toExchanger(planned.plan.unit);
  const evaluation = evaluate(planned, { exchanger, readings, cleanings: recorded });
  const localDay = Int32Array.from(readings.time, (at) => dayOf(at));
  const daily = dailyFigures(evaluation, readings, { localDay, cleanings: recorded, exchanger });
  return {
    key,
    exchanger,
    daily,
    cleanings: recorded.map((at) => ({ at, localDay: dayOf(at) })),
    cycles: cyclesOf(key, {
      planned,
      truth,
      exchanger,
      readings,
      daily,
      errors: dailyErrors(daily, { localDay, truth }),
    }),
  };
}

function generate(key: UnitKey): { planned: PlannedUnit; readings: ReadingColumns; truth: Truth } {
  for (let attempt = 0; attempt < MOST_ATTEMPTS; attempt++) {
    const planned = planSimulated(key, attempt);
    const { plan, days, stepHours } = planned;
    const span = {
      start: END - Math.ceil(days) * MS_PER_DAY,
      end: END,
      stepMs: stepHours * MS_PER_HOUR,
      seed: seedOf(key, attempt),
    };
    try {
      return { planned, ...generateReadings(plan, span) };
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
    }
  }
  throw new RangeError(`no plan suits unit ${key.index}`);
}

type Record = { exchanger: Exchanger; readings: ReadingColumns; cleanings: number[] };

function evaluate({ plan: { unit } }: PlannedUnit, { exchanger, readings, cleanings }: Record) {
  const settings = toCheckSettings(unit);
  const nominal = nominalSensors(readings);
  const by = (cleanFactors: CleanFactors, part: ReadingColumns) =>
    evaluateReadings({ exchanger, settings, cleanFactors, readings: part, nominal, judged: [] });
  return by(exchanger.clean === 'learned' ? learned() : AS_ON_DATASHEET, readings);

  /** One factor from the days after the first recorded cleaning that can teach it, as the product learns it by itself. */
  function learned(): CleanFactors {
    for (const start of cleanings) {
      const from = firstNotBefore(readings.time, start);
      const to = firstNotBefore(readings.time, start + LEARNING_WINDOW_MS);
      const found = learnScale(by(AS_ON_DATASHEET, sliceReadings(readings, from, to)), [start]);
      if (found !== null) return scaledFactors(found.scale);
    }
    return AS_ON_DATASHEET;
  }
}

type CyclesInput = {
  planned: PlannedUnit;
  truth: Truth;
  exchanger: Exchanger;
  readings: ReadingColumns;
  daily: DailyColumns;
  /** Of each daily figure, as share of the limit. */
  errors: Float64Array;
};

/** The cycles whose beginning lies in the record, with the questions put in each. */
function cyclesOf(key: UnitKey, input: CyclesInput): SimulatedCycle[] {
  const { planned, truth, exchanger, readings } = input;
  const column = spreadsheetColumn(exchanger, readings);
  const recorded = truth.cleanings.filter(({ isRecorded }) => isRecorded);
  return truth.cycles.slice(1).map((cycle, index) => {
    const { mechanism, hasChanged } = planned.history.cycles[index + 1]!;
    const lifeDays = cycle.crossingAgeDays!;
    const questions = SHARES.map((shareOfLife) => {
      const today = dayOf(cycle.start + shareOfLife * lifeDays * MS_PER_DAY);
      const asOf = (today + 1) * MS_PER_DAY - 1;
      const from = recorded.findLast(({ at }) => at <= asOf)?.at ?? Number.NEGATIVE_INFINITY;
      const lineDay = dayAtLimit(straightLineCrossing(column, { from, to: asOf, limit: truth.limit }));
      return { shareOfLife, today, asOf, lineDay };
    });
    const noise = noiseOf(errorsWithin(input, cycle));
    const seenAge = crossingAge(cycle.growth, truth.limit * (1 - noise.offset)) ?? Number.POSITIVE_INFINITY;
    return {
      ...{ mechanism, hasChanged, lifeDays, noise, questions },
      earlier: key.scenario === 'young' ? 0 : index + 1,
      truthDay: dayAtLimit(cycle.crossesAt!),
      seenDay: dayAtLimit(cycle.start + seenAge * MS_PER_DAY),
    };
  });
}

function errorsWithin({ daily, errors }: CyclesInput, { start, crossesAt }: TrueCycle): Float64Array {
  return errors.filter((_, row) => daily.day[row]! > dayOf(start) && daily.day[row]! <= dayOf(crossesAt!));
}

/** Local day of an instant: the simulated sites keep UTC. */
function dayOf(instant: number): number {
  return Math.floor(instant / MS_PER_DAY);
}

/** The first day whose figure, of its midday, is at the limit: what the product's days mean. */
function dayAtLimit(instant: number): number {
  return Math.ceil(instant / MS_PER_DAY - 0.5);
}
