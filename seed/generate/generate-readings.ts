import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom, type Random } from '@/lib/core/stats/random';
import { datedModels } from './dated-models';
import { limitFoulingResistance } from './limit-fouling';
import { measure } from './measure';
import { operate } from './operation';
import { isInGap, plantFaults } from './plant-faults';
import { MS_PER_DAY, type TrueCleaning, type TrueCycle, trueCycles } from './true-cycles';
import { type TrueStates, trueStates } from './true-states';
import type { UnitPlan } from './unit-plan';

const DAYS_PER_MONTH = 30;
/** A stretch without logging lasts this long on average [h]. */
const MEAN_GAP_HOURS = 6;
const MS_PER_HOUR = 3_600_000;
/** Keeps the streams of one seed apart: changing the noise leaves the operation as it was. */
const STREAM_SPACING = 2 ** 32;

/** What was really so: columns of the readings' length, and the unit's cleanings and cycles. */
export type Truth = {
  /** Per reading: fouling as it was, and without its slow wander [m²·K/W]; duty [W] and clean U [W/(m²·K)], NaN at rest. */
  foulingResistance: Float64Array;
  smoothFoulingResistance: Float64Array;
  duty: Float64Array;
  cleanU: Float64Array;
  isRunning: Uint8Array;
  /** Bits of `PLANTED_BIT`. */
  planted: Uint8Array;
  cleanings: TrueCleaning[];
  /** Oldest first; the last is running. */
  cycles: TrueCycle[];
  /** Fouling resistance of the limit reached first [m²·K/W]. */
  limit: number;
};

/** Record of `start` to `end` inclusive [ms], one reading per `stepMs`. */
export type RecordSpan = { start: number; end: number; stepMs: number; seed: number };

/** Readings of a planned unit by the forward model, with the truth behind them. Same plan and span, same readings. */
export function generateReadings(
  plan: UnitPlan,
  span: RecordSpan,
): { readings: ReadingColumns; truth: Truth } {
  const { start, end, stepMs, seed } = span;
  if (!(stepMs > 0 && end >= start))
    throw new RangeError('a record needs a positive step and an end after its start');
  const stream = (number: number) => makeRandom((seed >>> 0) + number * STREAM_SPACING);
  const models = datedModels(plan, end);
  const { first: limit, thermal } = limitFoulingResistance(models.at(-1)!.model, plan.measurement);
  const { cycles, cleanings } = trueCycles(plan, limit, span);
  const time = Float64Array.from(
    { length: Math.floor((end - start) / stepMs) + 1 },
    (_, i) => start + i * stepMs,
  );
  const operation = operate({ plan, models, cleanings, time, end }, stream(1));
  const states = trueStates({ models, operation, cycles, time, wander: plan.wander * limit }, stream(2));
  const measured = measure(
    { unit: plan.unit, models, plan: plan.measurement, states, time, thermalLimit: thermal },
    stream(3),
  );
  const planted = plantFaults(measured, plan.faults, { end, random: stream(4) });
  const kept = keptRows(time, plan, { end, random: stream(5) });
  const truth = {
    ...pickTruth(states, kept),
    planted: planted.filter((_, i) => kept[i]),
    cleanings,
    cycles,
    limit,
  };
  return { readings: pickReadings(measured, kept), truth };
}

function keptRows(
  time: Float64Array,
  plan: UnitPlan,
  { end, random }: { end: number; random: Random },
): Uint8Array {
  const kept = new Uint8Array(time.length);
  let silentUntil = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < time.length; i++) {
    const days = i > 0 ? (time[i]! - time[i - 1]!) / MS_PER_DAY : 0;
    if (random.uniform() < (plan.measurement.gapsPerMonth * days) / DAYS_PER_MONTH) {
      silentUntil = time[i]! - MEAN_GAP_HOURS * MS_PER_HOUR * Math.log1p(-random.uniform());
    }
    kept[i] = time[i]! >= silentUntil && !isInGap(plan.faults, time[i]!, end) ? 1 : 0;
  }
  return kept;
}

function pickTruth(states: TrueStates, kept: Uint8Array) {
  const pick = (column: Float64Array) => column.filter((_, i) => kept[i] === 1);
  return {
    foulingResistance: pick(states.foulingResistance),
    smoothFoulingResistance: pick(states.smoothFoulingResistance),
    duty: pick(states.duty),
    cleanU: pick(states.cleanU),
    isRunning: states.isRunning.filter((_, i) => kept[i] === 1),
  };
}

function pickReadings(measured: ReadingColumns, kept: Uint8Array): ReadingColumns {
  const isKept = (_: number, i: number) => kept[i] === 1;
  const time = measured.time.filter(isKept);
  const readings = makeReadingColumns(time.length);
  readings.time.set(time);
  readings.flowBasis.set(measured.flowBasis.filter(isKept));
  for (const sensor of SENSORS) readings[sensor].set(measured[sensor].filter(isKept));
  return readings;
}
