import type { Fluids } from '../clean/clean-reference';
import type { CycleSpan } from '../cycles/split-cycles';
import type { Exchanger, Side } from '../exchange/exchanger';
import type { Property } from '../fluids/fluid';
import type { DailyColumns } from '../series/daily-columns';
import { pressureDropAtReference } from '../series/pressure-drop';
import { median } from '../stats/quantile';
import { pumpPower } from './pump-power';

/** Figures after a cleaning whose median stands for the pressure drop it left, and the fewest that do [-]. */
const FIGURES_AFTER = 5;
const FEWEST_FIGURES_AFTER = 3;
/** Figures later than this after a cleaning say little of what it left [days] (own choice). */
const LONGEST_AFTER_DAYS = 14;

/** One stream as a pump sees it. */
export type PumpedSide = {
  side: Side;
  /** Exponent of pressure drop on mass flow [-], and the flow that the daily figures are scaled to [kg/s]. */
  exponent: number;
  designFlow: number;
  /** Pressure drop of the clean unit at that flow [Pa]; null where neither stated nor seen. */
  clean: number | null;
  /** Pressure that the pump works against whatever the flow [Pa]; null where not stated. */
  head: number | null;
  density: Property;
  /** Of pump and motor together [-]. */
  efficiency: number;
};

/**
 * The streams of a unit that are pumped: not those that change phase, nor those without a density.
 *
 * The clean pressure drop is the datasheet's; else the least of what the recorded cleanings left, each the median of its first
 * figures: a cleaning may leave deposits, but none leaves less than nothing.
 *
 * @param exchanger the unit
 * @param daily     its daily figures
 * @param spans     its cycles
 * @returns up to two streams; pressure drops at the design flow [Pa]
 * @range  any
 * @source METHODS §6 and §10
 * @check  tests/core/cost/extra-pumping.test.ts
 */
export function pumpedSides(
  exchanger: Exchanger,
  { fluids, daily, spans }: { fluids: Fluids; daily: DailyColumns; spans: readonly PumpedSpan[] },
): PumpedSide[] {
  const { losses, design, pressureDropExponents } = exchanger;
  return (['hot', 'cold'] as const).flatMap((side) => {
    const { density, phaseChange } = fluids[side];
    if (density === null || phaseChange !== null) return [];
    return {
      side,
      exponent: pressureDropExponents[side],
      designFlow: design[`${side}Flow`],
      clean: losses.cleanPressureDrop[side] ?? leastAfterCleanings(daily, spans, side),
      head: losses.pumpHead[side],
      density,
      efficiency: losses.pumpEfficiency,
    };
  });
}

/** Rows of a cycle and what began it; a cycle that no recorded cleaning began has no `start`. */
export type PumpedSpan = Pick<CycleSpan, 'start' | 'startDay' | 'from' | 'to'>;

function leastAfterCleanings(daily: DailyColumns, spans: readonly PumpedSpan[], side: Side): number | null {
  const column = daily[`${side}PressureDrop`];
  const levels = spans.flatMap(({ start, startDay, from, to }) => {
    if (start === null) return [];
    const first: number[] = [];
    for (let row = from; row < to && first.length < FIGURES_AFTER; row++) {
      if (daily.day[row]! - startDay > LONGEST_AFTER_DAYS) break;
      if (!Number.isNaN(column[row]!)) first.push(column[row]!);
    }
    return first.length < FEWEST_FIGURES_AFTER ? [] : [median(first)];
  });
  return levels.length === 0 ? null : Math.min(...levels);
}

/**
 * Electric power that the deposits on one side cost: (Δp − Δp of the clean unit) at the flow of the day, times V̇/η.
 *
 * @param pumped the stream
 * @param at     pressure drop scaled to the design flow [Pa], mass flow [kg/s], mean temperature of the stream [°C]
 * @returns [W]; below 0 where the unit drops less than the clean one, which says that the clean value is too high; NaN where
 *   the pressure drop, the clean one or the density is not known
 * @range  one flow regime
 * @source METHODS §10: Δp·V̇/η; Δp ∝ ṁ^m as `pressureDropAtReference`
 * @check  tests/core/cost/extra-pumping.test.ts
 */
export function depositPumping(
  pumped: PumpedSide,
  { pressureDrop, massFlow, temperature }: { pressureDrop: number; massFlow: number; temperature: number },
): number {
  if (pumped.clean === null) return Number.NaN;
  return powerOf(pumped, dropAt(pumped, pressureDrop - pumped.clean, massFlow), { massFlow, temperature });
}

/**
 * Electric power that the extra flow of a held outlet costs: Δp·V̇/η at the flow of the day less the same at the clean unit's
 * flow. With a stated head the pump works against that, whatever the flow; else against the unit's own pressure drop: at the
 * clean unit's flow that of the clean unit, where it is known, or today's scaled to it.
 *
 * @param pumped the stream that the valve sets
 * @param at     pressure drop scaled to the design flow [Pa], mass flow and that of the clean unit [kg/s], mean temperature [°C]
 * @returns [W]; below 0 where the clean unit would need more flow; NaN where neither head nor pressure drop is known
 * @range  one flow regime
 * @source METHODS §10: Δp·V̇/η; Δp ∝ ṁ^m as `pressureDropAtReference`
 * @check  tests/core/cost/extra-pumping.test.ts
 */
export function extraFlowPumping(
  pumped: PumpedSide,
  at: { pressureDrop: number; massFlow: number; cleanFlow: number; temperature: number },
): number {
  const { head, clean } = pumped;
  const { pressureDrop, massFlow, cleanFlow, temperature } = at;
  const now = head ?? dropAt(pumped, pressureDrop, massFlow);
  const then = head ?? dropAt(pumped, clean ?? pressureDrop, cleanFlow);
  const power = (drop: number, flow: number) => powerOf(pumped, drop, { massFlow: flow, temperature });
  return power(now, massFlow) - power(then, cleanFlow);
}

function dropAt({ designFlow, exponent }: PumpedSide, atDesign: number, massFlow: number): number {
  return pressureDropAtReference(atDesign, designFlow / massFlow, exponent);
}

function powerOf(
  { density, efficiency }: PumpedSide,
  drop: number,
  { massFlow, temperature }: { massFlow: number; temperature: number },
): number {
  return pumpPower(drop, massFlow, { density: density(temperature), efficiency });
}

/**
 * Sum of the values that are known.
 *
 * @param values NaN where not known [any unit]
 * @returns [unit of the values]; NaN where none is known
 * @range  any
 * @source none: convention
 * @check  tests/core/cost/daily-losses.test.ts
 */
export function sumOfKnown(values: readonly number[]): number {
  const known = values.filter((value) => !Number.isNaN(value));
  return known.length === 0 ? Number.NaN : known.reduce((sum, value) => sum + value, 0);
}
