import { localDay } from '@/lib/time/local-clock';
import type { FleetUnit } from './fleet/fleet-unit';
import type { UnitSummary } from './fleet/unit-summary';
import { ACROSS } from './fleet-trace';
import { formatNumber } from './format/figure';
import { formatDay } from './format/time';
import type { PlannedRecord } from './records';
import { type DaySpan, shareOf } from './time-axis';

/** Something on the axis of a row: where, as a share, and what it is in words. */
export type FleetMark = { at: number; words: string };

export type CleaningMark = FleetMark & { isPlanned: boolean };

/** Recorded cleanings within the axis, and those still to come. */
export function cleaningMarks(
  { cleanings, site }: FleetUnit,
  { span, now }: { span: DaySpan; now: number },
): CleaningMark[] {
  return cleanings
    .map(({ at, method }) => {
      const day = localDay(at, site.timeZone);
      const words = `${at > now ? 'planned cleaning' : 'cleaned'} ${formatDay(day)}${method ? `, ${method}` : ''}`;
      return { at: round(shareOf(span, day)), isPlanned: at > now, words };
    })
    .filter(isWithin);
}

/** A unit's dated work within the axis that waits to be done. */
export function plannedMarks(
  planned: readonly PlannedRecord[],
  { site }: FleetUnit,
  span: DaySpan,
): CleaningMark[] {
  return planned
    .map(({ from, outage, method }) => {
      const day = localDay(from, site.timeZone);
      const where = outage === null ? '' : ` in ${outage}`;
      const words = `planned cleaning ${formatDay(day)}${where}${method ? `, ${method}` : ''}`;
      return { at: round(shareOf(span, day)), isPlanned: true, words };
    })
    .filter(isWithin);
}

/** Falls within the axis that nobody has explained. */
export function probableMarks(summary: UnitSummary | null, span: DaySpan): FleetMark[] {
  return (summary?.probable ?? [])
    .map(({ day, share }) => {
      const size = share === null ? '' : ` by ${formatNumber(100 * share, 0)} % of the allowance`;
      const words = `probable cleaning ${formatDay(day)}: the fouling fell${size}, and nobody has said why`;
      return { at: round(shareOf(span, day)), words };
    })
    .filter(isWithin);
}

/** Since when the data of a unit may mislead; at the edge of the axis where that is longer ago. */
export function suspectMark(summary: UnitSummary | null, span: DaySpan): FleetMark | null {
  const since = summary?.health.suspectSinceDay ?? null;
  if (since === null || summary?.state === 'no-data') return null;
  const at = Math.min(0.98, Math.max(0, shareOf(span, since)));
  return { at: round(at), words: `data suspect since ${formatDay(since, { year: false })}` };
}

function isWithin({ at }: FleetMark): boolean {
  return at >= 0 && at <= 1;
}

/** Four decimals place a mark within a tenth of a pixel. */
export function round(share: number): number {
  return Math.round(share * ACROSS * 5) / (ACROSS * 5);
}
