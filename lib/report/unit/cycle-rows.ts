import type { Cycle } from '@/lib/core/pipeline/unit-trend';
import { displayUnit } from '@/lib/report/format/display-unit';
import { type Figure, formatFigure, formatMoney } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { AnalysedUnit, CleaningRecord } from '@/lib/report/records';

/** One cycle as a row: from cleaning to cleaning, what it grew, and what the cleaning that ended it gave back. */
export type CycleRow = {
  key: string;
  start: string;
  end: string;
  days: string;
  foulingAtStart: Figure;
  foulingAtEnd: Figure;
  ratePerDay: Figure;
  /** How the cycle ended: method, cost, share recovered. */
  endedBy: string;
};

export type CycleTable = { rows: CycleRow[]; foulingUnit: string; rateUnit: string };

/** The cycles of a unit, the running one first. */
export function cycleTable({ trend, cleanings, record }: AnalysedUnit, system: UnitSystem): CycleTable {
  const cycles = trend?.cycles ?? [];
  const rows = cycles.map((cycle, index): CycleRow => {
    const spread = cycle.growth?.foulingResistanceUncertainty ?? null;
    const fouling = (value: number | null) =>
      formatFigure(value, 'foulingResistance', system, { uncertainty: spread });
    return {
      key: `${cycle.startDay}`,
      start: cycle.start === null ? `record begins ${formatDay(cycle.startDay)}` : formatDay(cycle.startDay),
      end: cycle.end === null ? 'running' : formatDay(cycle.endDay),
      days: `${cycle.endDay - cycle.startDay}`,
      foulingAtStart: fouling(cycle.foulingAtStart),
      foulingAtEnd: fouling(cycle.foulingAtEnd),
      ratePerDay: formatFigure(cycle.growth?.ratePerDay, 'foulingRate', system, {
        uncertainty: cycle.growth?.ratePerDayUncertainty ?? null,
      }),
      endedBy: endOf(cycle, { next: cycles[index + 1], cleanings, currency: record.site.currency }),
    };
  });
  return {
    rows: rows.reverse(),
    foulingUnit: displayUnit('foulingResistance', system).label,
    rateUnit: displayUnit('foulingRate', system).label,
  };
}

function endOf(
  cycle: Cycle,
  { next, cleanings, currency }: { next: Cycle | undefined; cleanings: CleaningRecord[]; currency: string },
): string {
  if (cycle.end === null) return '–';
  const cleaning = cleanings.find(({ at }) => at === cycle.end);
  const parts = [cleaning?.method ?? 'method not stated'];
  if (cleaning?.cost != null) parts.push(formatMoney(cleaning.cost, currency));
  const before = cycle.foulingAtEnd;
  const after = next?.foulingAtStart ?? null;
  // A share of next to nothing says nothing: only a cycle that had fouled can be recovered from.
  if (before !== null && after !== null && before > 0 && after < before) {
    parts.push(`${Math.round(((before - after) / before) * 100)} % recovered`);
  }
  return parts.join(', ');
}
