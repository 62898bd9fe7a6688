import { localDay } from '@/lib/time/local-clock';
import { formatNumber } from './format/figure';
import { formatDay, formatSpan } from './format/time';
import type { FleetRecords, UnitRecords } from './records';

/** Readings older than this are said to be [ms]: a missed night of a daily upload is not worth a word. */
const WORTH_SAYING_MS = 2 * 86_400_000;

/** What of a fleet says how old it is; `newest` is of each site's results [ms], by its number. */
export type FleetAge = Pick<FleetRecords, 'sites' | 'now' | 'clock' | 'due'> & {
  newest: ReadonlyMap<number, number>;
};

/** What a page of whole results must own up to: an old "today", sites whose readings end before it, results not up to date. */
export function fleetStaleness({ units, ...fleet }: FleetRecords): string[] {
  const newest = new Map<number, number>();
  for (const { record, result } of units) {
    const asOf = result?.asOf ? Date.parse(result.asOf) : Number.NaN;
    if (asOf > (newest.get(record.site.id) ?? Number.NEGATIVE_INFINITY)) newest.set(record.site.id, asOf);
  }
  return stalenessInWords({ ...fleet, newest });
}

/** The same of any page of the fleet. */
export function stalenessInWords({ sites, newest, now, clock, due }: FleetAge): string[] {
  const lines: string[] = [];
  if (clock - now > WORTH_SAYING_MS) {
    const zone = sites[0]?.timeZone ?? 'UTC';
    lines.push(
      `The newest reading is of ${formatDay(localDay(now, zone))}, ${formatSpan(clock - now)} ago: “today” is that day.`,
    );
  }
  for (const site of sites) {
    const last = newest.get(site.id);
    if (last !== undefined && now - last > WORTH_SAYING_MS) {
      lines.push(
        `${site.name}: readings end on ${formatDay(localDay(last, site.timeZone))}; its units are judged as of then.`,
      );
    }
  }
  if (due > 0) {
    lines.push(
      `${due === 1 ? 'One unit has' : `${formatNumber(due, 0)} units have`} changed since the last analysis: run cleanby analyse.`,
    );
  }
  return lines;
}

/** What the unit page must own up to. */
export function unitStaleness({ isDue, result, now, clock, record }: UnitRecords): string[] {
  const lines: string[] = [];
  if (result !== null && clock - now > WORTH_SAYING_MS) {
    const day = formatDay(localDay(now, record.site.timeZone));
    lines.push(
      `Readings of this site end on ${day}, ${formatSpan(clock - now)} ago: “today” on this page is that day.`,
    );
  }
  if (isDue)
    lines.push(
      'Readings, cleanings or the datasheet have changed since the last analysis: run cleanby analyse.',
    );
  return lines;
}
