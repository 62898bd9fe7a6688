import type { Cycle } from '@/lib/core/pipeline/unit-trend';
import { displayUnit } from '@/lib/report/format/display-unit';
import { type Figure, formatFigure, formatMoney } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { AnalysedUnit, CleaningRecord } from '@/lib/report/records';

/** One cycle as a row: how it began and ended, and what grew in between. */
export type CycleRow = {
  key: string;
  start: string;
  began: string;
  end: string;
  days: string;
  foulingAtStart: Figure;
  foulingAtEnd: Figure;
  ratePerDay: Figure;
  /** What ended it: method and cost of the cleaning. */
  endedBy: string;
};

export type CycleTable = { rows: CycleRow[]; foulingUnit: string; rateUnit: string };

const BEGAN_WORDS: Record<Cycle['began'], string> = {
  cleaning: 'cleaned',
  'probable-cleaning': '△ a fall, no cleaning recorded',
  record: 'the record begins',
};

/** The cycles of a unit, the running one first. */
export function cycleTable({ trend, cleanings, record }: AnalysedUnit, system: UnitSystem): CycleTable {
  const cycles = trend?.cycles ?? [];
  const rows = cycles.map((cycle, index): CycleRow => {
    const next = cycles[index + 1];
    const spread = cycle.growth?.foulingResistanceUncertainty ?? null;
    const fouling = (value: number | null) =>
      formatFigure(value, 'foulingResistance', system, { uncertainty: spread });
    return {
      key: `${cycle.startDay} ${cycle.began}`,
      start: formatDay(cycle.startDay),
      began: BEGAN_WORDS[cycle.began],
      end: next === undefined ? 'running' : formatDay(cycle.endDay),
      days: `${cycle.endDay - cycle.startDay}`,
      foulingAtStart: fouling(cycle.foulingAtStart),
      foulingAtEnd: fouling(cycle.foulingAtEnd),
      ratePerDay: formatFigure(cycle.growth?.ratePerDay, 'foulingRate', system, {
        uncertainty: cycle.growth?.ratePerDayUncertainty ?? null,
      }),
      endedBy: endOf(cycle, { next, cleanings, currency: record.site.currency }),
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
  if (next === undefined) return '–';
  if (next.began === 'probable-cleaning') return BEGAN_WORDS[next.began];
  const cleaning = cleanings.find(({ at }) => at === cycle.end);
  const parts = [cleaning?.method ?? 'method not stated'];
  if (cleaning?.cost != null) parts.push(formatMoney(cleaning.cost, currency));
  return parts.join(', ');
}
