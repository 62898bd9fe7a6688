import { wonDutyOf } from '@/lib/core/pipeline/won-duty';
import type { AnalysedUnit } from '@/lib/report/records';

const SECONDS_PER_DAY = 86_400;

/** Standard uncertainty of the heat lost on a day [J]: the part that is the same on all days, and that of the day alone. */
type HeatUncertainty = { systematic: number; random: number };

/**
 * How well the heat lost on a day is known: what the unit would transfer with its fouling one standard uncertainty higher.
 * A row without a figure gives null.
 */
export function heatUncertainties({
  record,
  daily,
}: Pick<AnalysedUnit, 'record' | 'daily'>): (row: number) => HeatUncertainty | null {
  const wonDuty = wonDutyOf(record.exchanger, daily);
  return (row) => {
    const total = daily.foulingResistanceUncertainty[row]!;
    const part = daily.foulingResistanceSystematic[row]!;
    const heat = Math.abs(wonDuty(row, daily.foulingResistance[row]! + total)) * SECONDS_PER_DAY;
    if (!Number.isFinite(heat) || !(total > 0)) return null;
    const systematic = Number.isFinite(part) ? Math.min(part / total, 1) : 1;
    return { systematic: heat * systematic, random: heat * Math.sqrt(1 - systematic ** 2) };
  };
}
