import { AppError } from '@/lib/contract/app-error';
import type { CyclesResult, DailyResult, FleetHealth, UnitHealth, UnitResult } from '@/lib/contract/results';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { cyclesResult } from '@/lib/report/cycles-result';
import { fleetHealth } from '@/lib/report/fleet-health';
import { dailyResult } from '@/lib/report/unit-result';
import { findResult, resultDocuments, type StoredResult } from '@/lib/store/entities/results';
import type { Context } from './context';
import { knownUnit } from './known-unit';

/** Results of every analysed unit: over the limit first, then by clean-by day, then those without an answer. */
export async function showFleet(context: Context): Promise<UnitResult[]> {
  const stored = await resultDocuments(context.store.entities);
  return stored.map(({ result }) => result).sort(byUrgency);
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

/** Cycles of a unit, the running one last, and what the cleanings that began them did. */
export async function showCycles(context: Context, tag: string): Promise<CyclesResult> {
  const { trend } = await stored(context, tag);
  return cyclesResult(tag, trend);
}

export async function showHealth(context: Context, tag: string): Promise<UnitHealth> {
  const { result } = await stored(context, tag);
  return { tag, ...result.health };
}

/** Data health of every analysed unit, by tag, and of the fleet. */
export async function showFleetHealth(context: Context): Promise<FleetHealth> {
  const results = await resultDocuments(context.store.entities);
  return fleetHealth(results.filter(isOfThisMethod).map(({ result }) => result));
}

async function stored(context: Context, tag: string): Promise<StoredResult> {
  const unit = await knownUnit(context, tag);
  const result = await findResult(context.store.entities, unit.id);
  if (result === null)
    throw new AppError('not-found', `Unit "${tag}" has not been analysed: run cleanby analyse`);
  if (!isOfThisMethod(result))
    throw new AppError('not-found', `Unit "${tag}" was analysed by another version: run cleanby analyse`);
  return result;
}

/** Results of another version may not hold what this one shows. */
function isOfThisMethod({ methodVersion }: Pick<StoredResult, 'methodVersion'>): boolean {
  return methodVersion === METHOD_VERSION;
}
