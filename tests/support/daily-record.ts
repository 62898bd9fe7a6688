import { REASONS } from '@/lib/core/checks/reasons';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { DAILY_FLOAT_COLUMNS, type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { DAY_MS, solveForward } from './forward-readings';

/** First local day of made-up daily records. */
export const FIRST_DAY = 20_000;

export type DailyRecord = {
  days: number;
  /** True fouling by day of the record [m²·K/W]. */
  fouling: (day: number) => number;
  /** Standard deviation of the daily figures [m²·K/W]. */
  noise: number;
  seed: number;
};

/** Daily figures at the design inlets and flows, with noise on the fouling resistance alone. */
export function dailyRecord(exchanger: Exchanger, { days, fouling, noise, seed }: DailyRecord): DailyColumns {
  const random = makeRandom(seed);
  const daily = makeDailyColumns(days);
  for (let row = 0; row < days; row++) {
    const state = solveForward(exchanger, { ...exchanger.design, fouling: fouling(row) });
    const clean = solveForward(exchanger, { ...exchanger.design, fouling: 0 });
    daily.day[row] = FIRST_DAY + row;
    daily.readings[row] = 24;
    daily.accepted[row] = 24;
    daily.firstAccepted[row] = (FIRST_DAY + row) * DAY_MS;
    daily.lastAccepted[row] = (FIRST_DAY + row) * DAY_MS + 23 * 3_600_000;
    daily.duty[row] = state.duty;
    daily.cleanU[row] = state.cleanU;
    daily.foulingResistance[row] = fouling(row) + noise * random.normal();
    daily.overallU[row] = 1 / (1 / state.cleanU + daily.foulingResistance[row]!);
    daily.foulingResistanceUncertainty[row] = Math.hypot(noise, 2e-6);
    daily.foulingResistanceSystematic[row] = 2e-6;
    daily.foulingResistanceScatter[row] = noise;
    daily.lostDuty[row] = clean.duty - state.duty;
    for (const name of ['hotIn', 'hotOut', 'coldIn', 'coldOut'] as const) daily[name][row] = state[name];
    daily.hotMassFlow[row] = state.hotFlow;
    daily.coldMassFlow[row] = state.coldFlow;
  }
  return daily;
}

/** Makes days figure-less, as a dead sensor would. */
export function blankDays(daily: DailyColumns, from: number, to: number, reason: number): void {
  for (let row = from; row < to; row++) {
    daily.accepted[row] = 0;
    daily.worstReason[row] = reason;
    daily.off[row] = REASONS[reason] === 'unit-off' ? daily.readings[row]! : 0;
    for (const name of DAILY_FLOAT_COLUMNS) daily[name][row] = Number.NaN;
  }
}
