import type { Exchanger, LossSettings } from '@/lib/core/exchange/exchanger';
import { type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import { NO_LOSS_SETTINGS, waterUnit } from './forward-readings';

/** First local day of the records made here. */
export const FIRST = 20_000;

/** 1000 kg/m³ and 4000 J/(kg·K) at every temperature: round numbers for working by hand. */
export const ROUND_FLUID: Exchanger['hot'] = {
  kind: 'custom',
  name: 'round numbers',
  properties: {
    temperatures: [20],
    specificHeat: [4000],
    density: [1000],
    viscosity: null,
    conductivity: null,
  },
};

/**
 * A counter-current unit of round numbers: hot 10 kg/s (40 kW/K) from 90 °C, cold 20 kg/s (80 kW/K) from 30 °C, clean
 * 2000 W/(m²·K) over 40 m².
 */
export function roundUnit(change: Partial<Exchanger> = {}, losses: Partial<LossSettings> = {}): Exchanger {
  return waterUnit({
    hot: ROUND_FLUID,
    cold: ROUND_FLUID,
    area: 40,
    design: { hotIn: 90, hotOut: 43.52, coldIn: 30, coldOut: 53.24, hotFlow: 10, coldFlow: 20, cleanU: 2000 },
    losses: { ...NO_LOSS_SETTINGS, ...losses },
    ...change,
  });
}

/** Figures of one day, the rest NaN. */
export type DayFigures = Partial<Record<Exclude<keyof DailyColumns, 'day'>, number>>;

/** Daily columns with the same figures on each of the given days after the first. */
export function sameEveryDay(days: readonly number[], figures: DayFigures): DailyColumns {
  const daily = makeDailyColumns(days.length);
  daily.day.set(days.map((day) => FIRST + day));
  for (const [name, value] of Object.entries(figures)) daily[name as keyof DailyColumns].fill(value);
  return daily;
}
