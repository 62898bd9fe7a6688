import { AppError } from '@/lib/contract/app-error';
import type { DailyResult, UnitResult } from '@/lib/contract/results';
import { dailyResult } from '@/lib/report/unit-result';
import { allResults, findResult, type StoredResult } from '@/lib/store/entities/results';
import { findUnit } from '@/lib/store/entities/units';
import { isoDay } from '@/lib/time/calendar-day';
import type { Context } from './context';

/** Results of every analysed unit: over the limit first, then by clean-by day, then those without an answer. */
export async function showFleet(context: Context): Promise<UnitResult[]> {
  const stored = await allResults(context.store.entities);
  return [...stored.values()].map(({ result }) => result).sort(byUrgency);
}

function byUrgency(a: UnitResult, b: UnitResult): number {
  const day = (unit: UnitResult) => unit.cleanBy.crossedOn ?? unit.cleanBy.p50 ?? '9999-12-31';
  return day(a).localeCompare(day(b), 'en') || a.tag.localeCompare(b.tag, 'en');
}

/** @throws AppError 'not-found' for an unknown tag or a unit never analysed */
export async function showUnit(context: Context, tag: string): Promise<UnitResult> {
  return (await stored(context, tag)).result;
}

export async function showDaily(context: Context, tag: string): Promise<DailyResult> {
  const { unitId } = await stored(context, tag);
  return dailyResult(tag, await context.store.series.readDaily(unitId));
}

export type ShownCycle = {
  from: string;
  to: string;
  days: number;
  figures: number;
  foulingAtStart: number | null;
  foulingAtEnd: number | null;
  ratePerDay: number | null;
};

export async function showCycles(
  context: Context,
  tag: string,
): Promise<{ tag: string; cycles: ShownCycle[] }> {
  const { trend } = await stored(context, tag);
  const cycles = trend.cycles.map((cycle) => ({
    from: isoDay(cycle.startDay),
    to: isoDay(cycle.endDay),
    days: cycle.endDay - cycle.startDay,
    figures: cycle.figures,
    foulingAtStart: cycle.foulingAtStart,
    foulingAtEnd: cycle.foulingAtEnd,
    ratePerDay: cycle.growth?.ratePerDay ?? null,
  }));
  return { tag, cycles };
}

export async function showHealth(
  context: Context,
  tag: string,
): Promise<{ tag: string } & UnitResult['health']> {
  const { result } = await stored(context, tag);
  return { tag, ...result.health };
}

async function stored(context: Context, tag: string): Promise<StoredResult> {
  const unit = await findUnit(context.store.entities, tag);
  if (unit === null) throw new AppError('not-found', `There is no unit "${tag}"`);
  const result = await findResult(context.store.entities, unit.id);
  if (result === null)
    throw new AppError('not-found', `Unit "${tag}" has not been analysed: run cleanby analyse`);
  return result;
}
