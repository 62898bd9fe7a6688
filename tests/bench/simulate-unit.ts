import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { nominalSensors } from '@/lib/core/checks/nominal-sensors';
import { AS_ON_DATASHEET, type CleanFactors, scaledFactors } from '@/lib/core/clean/clean-reference';
import { LEARNING_WINDOW_MS, type LearnedScale, learnScale } from '@/lib/core/clean/learn-scale';
import type { RecordedCleaning } from '@/lib/core/cycles/split-cycles';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { median } from '@/lib/core/stats/quantile';
import { generateReadings, type Truth } from '@/seed/generate/generate-readings';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';
import { dailyErrors } from './daily-noise';
import { type PlannedUnit, planSimulated } from './plan-unit';
import { MOST_ATTEMPTS, seedOf, type UnitKey } from './ranges';
import { dayOf, type SimulatedCycle, simulatedCycles } from './simulated-cycles';
import { spreadsheetColumn } from './spreadsheet-line';

const MS_PER_HOUR = 3_600_000;
/** Records end here; the seasons fall on any part of a cycle. */
const END = Date.parse('2026-06-01T00:00:00Z');

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
  const { evaluation, learnedFrom } = evaluate(planned, { exchanger, readings, cleanings: recorded });
  const countedAsClean = depositWithin(truth, readings, learnedFrom);
  const localDay = Int32Array.from(readings.time, (at) => dayOf(at));
  const daily = dailyFigures(evaluation, readings, { localDay, cleanings: recorded, exchanger });
  return {
    key,
    exchanger,
    daily,
    cleanings: recorded.map((at) => ({ at, localDay: dayOf(at) })),
    cycles: simulatedCycles({
      history: planned.history,
      truth,
      spreadsheet: spreadsheetColumn(exchanger, readings),
      daily,
      countedAsClean,
      errors: dailyErrors(daily, { localDay, truth, countedAsClean }),
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
  const learned = exchanger.clean === 'learned' ? learn() : null;
  const factors = learned === null ? AS_ON_DATASHEET : scaledFactors(learned.scale);
  return { evaluation: by(factors, readings), learnedFrom: learned };

  /** One factor from the days after the first recorded cleaning that can teach it, as the product learns it by itself. */
  function learn(): LearnedScale | null {
    for (const start of cleanings) {
      const from = firstNotBefore(readings.time, start);
      const to = firstNotBefore(readings.time, start + LEARNING_WINDOW_MS);
      const found = learnScale(by(AS_ON_DATASHEET, sliceReadings(readings, from, to)), [start]);
      if (found !== null) return found;
    }
    return null;
  }
}

/**
 * The deposit that was there while a unit learned what clean is [m²·K/W]: a learned reference counts fouling from there,
 * and so does the truth it is held against. 0 where the datasheet says what clean is.
 */
function depositWithin(truth: Truth, { time }: ReadingColumns, learned: LearnedScale | null): number {
  if (learned === null) return 0;
  const from = firstNotBefore(time, learned.from);
  const to = firstNotBefore(time, learned.to);
  return median(truth.foulingResistance.subarray(from, Math.max(to, from + 1)));
}
