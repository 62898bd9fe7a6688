import type { StepDown } from '@/lib/core/cycles/find-step-downs';
import { quantileOfSorted } from '@/lib/core/stats/quantile';
import type { ChartMark, ChartSpan } from '@/lib/report/format/chart-view';
import { type DisplayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { formatDay } from '@/lib/report/format/time';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import type { CleaningRecord, OutageRecord, PlannedRecord, UnitBasis } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';

/** Digits kept of a plotted value: more cannot be seen and would only make the page heavier [-]. */
const PLOTTED_DIGITS = 5;

/** SI values as plotted values in a shown unit; what is not a number becomes null, so that the line breaks. */
export function plotted(values: ArrayLike<number>, shown: DisplayUnit): (number | null)[] {
  return Array.from(values, (value) =>
    Number.isFinite(value) ? Number(toDisplay(value, shown).toPrecision(PLOTTED_DIGITS)) : null,
  );
}

/** Values already in the unit they are shown in, null where they are no number. */
export function plainNumbers(values: ArrayLike<number>): (number | null)[] {
  return Array.from(values, (value) =>
    Number.isFinite(value) ? Number(value.toPrecision(PLOTTED_DIGITS)) : null,
  );
}

/** Least and greatest of several columns; infinite when all are empty. */
export function rangeOf(...columns: (number | null)[][]): [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const column of columns) {
    for (const value of column) {
      if (value === null) continue;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    }
  }
  return [least, greatest];
}

/** Share of values at either end that may be wild [-], and how far beyond the others an axis still reaches [-] (own choice). */
const WILD_SHARE = 0.005;
const REACH = 0.3;

/** The range that holds the columns but for wild values: one spike must not flatten a year. */
export function usualRange(columns: (number | null)[][]): [number, number] {
  const sorted = Float64Array.from(columns.flat().filter((value) => value !== null)).sort();
  const low = quantileOfSorted(sorted, WILD_SHARE);
  const high = quantileOfSorted(sorted, 1 - WILD_SHARE);
  const room = (high - low) * REACH;
  return [Math.max(sorted[0] ?? Number.NaN, low - room), Math.min(sorted.at(-1) ?? Number.NaN, high + room)];
}

/** The cleanings that fall on an axis, with day and method. */
export function cleaningMarks(cleanings: CleaningRecord[], axis: TimeAxis): ChartMark[] {
  return cleanings
    .filter(({ at }) => at >= axis.from && at <= axis.end)
    .map(({ at, method }) => ({
      at,
      symbol: '▲',
      label: `cleaned ${formatDay(localDay(at, axis.timeZone), { year: false })}${method === null ? '' : `, ${method}`}`,
    }));
}

/** Dated work on an axis that waits to be done. */
export function plannedMarks(planned: readonly PlannedRecord[], axis: TimeAxis): ChartMark[] {
  return planned
    .filter(({ from }) => from >= axis.from && from <= axis.end)
    .map(({ from, method }) => ({
      at: from,
      symbol: '▽',
      label: `planned cleaning ${formatDay(localDay(from, axis.timeZone), { year: false })}${method === null ? '' : `, ${method}`}`,
    }));
}

/** Falls that nobody explained yet: probable cleanings, between the last figure before and the first after. */
export function probableMarks(falls: readonly StepDown[], axis: TimeAxis): ChartMark[] {
  return falls
    .map(({ earliest, latest }) => (earliest + latest) / 2)
    .filter((at) => at >= axis.from && at <= axis.end)
    .map((at) => ({
      at,
      symbol: '△',
      label: `cleaned around ${formatDay(localDay(at, axis.timeZone), { year: false })}? not recorded`,
    }));
}

/** Where what readings are judged by changed on an axis: another datasheet, another clean reference. */
export function basisMarks(bases: readonly UnitBasis[], axis: TimeAxis): ChartMark[] {
  return bases.flatMap((basis, index) => {
    const before = bases[index - 1];
    if (before === undefined || basis.from < axis.from || basis.from > axis.end) return [];
    const day = formatDay(localDay(basis.from, axis.timeZone), { year: false });
    const what =
      basis.unitVersion === before.unitVersion
        ? `clean reference ${basis.reference ?? 'of the datasheet'}`
        : `datasheet ${basis.unitVersion}`;
    return [{ at: basis.from, symbol: '◇' as const, label: `${what} from ${day}` }];
  });
}

/** The outages of the unit's site that touch an axis. */
export function outageSpans(outages: OutageRecord[], siteId: number, axis: TimeAxis): ChartSpan[] {
  return outages
    .filter((outage) => outage.siteId === siteId && outage.to >= axis.from && outage.from <= axis.end)
    .map(({ from, to, name }) => ({
      from: Math.max(from, axis.from),
      to: Math.min(to, axis.end),
      label: name,
    }));
}

/** The last finite value of a column, null when there is none. */
export function lastValue(values: (number | null)[]): number | null {
  return values.findLast((value) => value !== null) ?? null;
}
