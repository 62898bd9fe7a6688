import type { Bought } from '@/lib/core/fouling/uncertainty-budget';
import { changeSystematic } from '@/lib/core/growth/change-systematic';
import type { Growth } from '@/lib/core/growth/growth';
import { projectCrossing } from '@/lib/core/growth/project-crossing';
import { cycleSystematic } from '@/lib/core/pipeline/cycle-growth';
import type { UnitRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import type { TypicalBudget } from './typical-budget';

/** What another instrument would leave: u(Rf) of a day [m²·K/W], u(share of allowance used) [-], days from P10 to P90 of clean-by. */
export type Prospect = { daily: number; used: number | null; days: number | null };

/** Share and days are null where no limit on the fouling governs, or too little is known of its growth. */
export function boughtFor(records: UnitRecords, { budget }: TypicalBudget, bought: Bought): Prospect {
  const { trend, daily, record, now } = records;
  const { systematic } = budget.foulingResistance;
  const cycle = trend?.cycles.at(-1);
  const limit = trend === null || trend.governing === null ? null : trend.limits[trend.governing]!;
  const level = limit?.foulingResistance ?? null;
  if (!trend?.growth || cycle === undefined || level === null || !(level > 0) || !(systematic > 0)) {
    return { daily: bought.daily, used: null, days: null };
  }
  const rows = [...daily.day.keys()].filter(
    (row) => daily.day[row]! >= cycle.startDay && Number.isFinite(daily.foulingResistance[row]!),
  );
  // The systematic part counts in full whatever the number of days; what scatters was seen in the record and stays.
  const before = cycleSystematic(daily, rows, record.exchanger.clean);
  const after = (before * bought.systematic) / systematic;
  const variance = trend.growth.foulingResistanceUncertainty ** 2 - before ** 2 + after ** 2;
  return {
    daily: bought.daily,
    used: Math.sqrt(Math.max(0, variance)) / level,
    days: crossingDays(changeSystematic(trend.growth, before, after), {
      limit: level,
      ageToday: Math.max(0, localDay(now, record.site.timeZone) - cycle.startDay),
      horizonDays: trend.horizonDays,
    }),
  };
}

function crossingDays(
  growth: Growth,
  at: { limit: number; ageToday: number; horizonDays: number },
): number | null {
  const { p10, p90 } = projectCrossing({ growth, ...at });
  return p10 === null || p90 === null ? null : p90 - p10;
}
