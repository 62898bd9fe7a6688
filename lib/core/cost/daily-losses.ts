import { type CycleStart, cycleRows } from '../cycles/cycle-rows';
import type { Exchanger } from '../exchange/exchanger';
import type { DailyColumns } from '../series/daily-columns';
import { type CountedDay, countedDays, valueOn } from './bridged-days';
import { type DayConditions, dayConditions, meanTemperature } from './day-conditions';
import { flowRatioFor, type HeldOutlet } from './held-outlet';
import { dutyLost, type LosingUnit, losingUnit } from './losing-unit';
import { depositPumping, extraFlowPumping, type PumpedSide, sumOfKnown } from './pumped-sides';

export const SECONDS_PER_DAY = 86_400;

/** What fouling cost on each day that counts, ascending by day, columns of equal length. */
export type DailyLosses = {
  /** Local day of the site, as days since 1970-01-01. */
  day: Int32Array;
  /** Heat not transferred on that day [J]; 0 where a valve holds the outlet, for the duty is then fixed. */
  heat: Float64Array;
  /** Extra electric work of the pumps on that day [J]; NaN where nothing can be said of it. */
  pumping: Float64Array;
  /** Flow beyond that of the clean unit [kg/s], and share of the valve's maximum flow still free [-]; NaN unless an outlet is held. */
  extraFlow: Float64Array;
  marginLeft: Float64Array;
  /** 1 where the day has no figure of its own and lies on the line between two that have. */
  isBridged: Uint8Array;
};

export type DailyLossesInput = {
  exchanger: Exchanger;
  daily: DailyColumns;
  /** Cycles in order, the last one running: nothing is bridged from one to the next. */
  cycles: readonly CycleStart[];
  /** Local day from which on losses are wanted; left out: of the whole record. */
  fromDay?: number;
};

/**
 * What fouling cost on each day: heat not transferred and extra work of the pumps; for a held outlet the extra flow.
 *
 * Days count as `countedDays` says. Work of the pumps is that of the sides of which the pressure drop (or for a held outlet
 * the head) is known; a negative one says that the unit drops less than its clean value. A held outlet has no extra flow (NaN)
 * where no flow of the clean unit gives the day's duty.
 *
 * @param input unit, daily figures, cycles
 * @returns one row per day that counts [J, kg/s, -]
 * @range  any
 * @source METHODS §10
 * @check  tests/core/cost/daily-losses.test.ts
 */
export function dailyLosses({ exchanger, daily, cycles, fromDay }: DailyLossesInput): DailyLosses {
  const spans = cycleRows(daily, cycles);
  const unit = losingUnit(exchanger, daily, spans);
  // Not `flatMap`, which takes ten times as long.
  const counted: CountedDay[] = [];
  for (const span of spans) counted.push(...countedDays(daily, span, fromDay));
  const rows = lossesOfRows(unit, daily, {
    from: counted[0]?.before ?? 0,
    to: (counted.at(-1)?.after ?? -1) + 1,
  });
  return {
    day: new Int32Array(counted.map(({ day }) => day)),
    heat: valuesOn(dutyLost(exchanger, daily), counted, SECONDS_PER_DAY),
    pumping: valuesOn(rows.pumping, counted, SECONDS_PER_DAY),
    extraFlow: valuesOn(rows.extraFlow, counted),
    marginLeft: valuesOn(rows.marginLeft, counted),
    isBridged: new Uint8Array(counted.map(({ before, after }) => (before === after ? 0 : 1))),
  };
}

/** A column on the days that count, times a factor. */
function valuesOn(column: Float64Array, counted: readonly CountedDay[], factor = 1): Float64Array {
  const values = new Float64Array(counted.length);
  for (let i = 0; i < values.length; i++) values[i] = factor * valueOn(column, counted[i]!);
  return values;
}

type Rows = { from: number; to: number };

type RowLosses = Record<'pumping' | 'extraFlow' | 'marginLeft', Float64Array>;

/** Power of the pumps [W], extra flow [kg/s] and margin [-] of every row with a figure. */
function lossesOfRows(unit: LosingUnit, daily: DailyColumns, { from, to }: Rows): RowLosses {
  const { length } = daily.day;
  const columns: RowLosses = {
    pumping: unknown(length),
    extraFlow: unknown(length),
    marginLeft: unknown(length),
  };
  const pumps = pumpsOf(unit, daily);
  for (let row = from; row < to; row++) {
    if (Number.isNaN(daily.lostDuty[row]!)) continue;
    // Without a pressure drop nothing can be said of a pump, nor is anything else asked of the day's conditions.
    if (unit.held === null && pumps.every(({ drops }) => Number.isNaN(drops[row]!))) continue;
    const conditions = dayConditions(unit.fluids, daily, row);
    const flowRatio = unit.held === null ? 1 : flowRatioFor(unit.held, conditions, 0);
    if (unit.held !== null) writeExtraFlow(columns, row, { held: unit.held, conditions, flowRatio });
    columns.pumping[row] = sumOfKnown(
      pumps.map(({ pumped, drops }) => pumpingOf(pumped, { unit, conditions, flowRatio, drop: drops[row]! })),
    );
  }
  return columns;
}

function unknown(length: number): Float64Array {
  return new Float64Array(length).fill(Number.NaN);
}

/** A pumped stream with its pressure drops scaled to the design flow [Pa]. */
type Pump = { pumped: PumpedSide; drops: Float64Array };

/** The pumps of which something can be said: the clean pressure drop is known, or a valve sets their flow. */
function pumpsOf({ pumped, held }: LosingUnit, daily: DailyColumns): Pump[] {
  return pumped
    .filter(({ clean, side }) => clean !== null || side === held?.set)
    .map((each) => ({ pumped: each, drops: daily[`${each.side}PressureDrop`] }));
}

type Row = { held: HeldOutlet; conditions: DayConditions; flowRatio: number };

function writeExtraFlow(columns: RowLosses, row: number, { held, conditions, flowRatio }: Row): void {
  const massFlow = conditions[`${held.set}MassFlow`];
  const maximum = held.exchanger.losses.maximumFlow[held.set];
  columns.extraFlow[row] = massFlow * (1 - flowRatio);
  columns.marginLeft[row] = maximum === null ? Number.NaN : 1 - massFlow / maximum;
}

function pumpingOf(
  pumped: PumpedSide,
  {
    unit,
    conditions,
    flowRatio,
    drop,
  }: { unit: LosingUnit; conditions: DayConditions; flowRatio: number; drop: number },
): number {
  const massFlow = conditions[`${pumped.side}MassFlow`];
  const temperature = meanTemperature(conditions, pumped.side);
  const at = { pressureDrop: drop, massFlow, temperature };
  if (unit.held?.set !== pumped.side) return depositPumping(pumped, at);
  return extraFlowPumping(pumped, { ...at, cleanFlow: massFlow * flowRatio });
}
