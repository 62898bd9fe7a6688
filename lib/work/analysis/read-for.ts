import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { KnownResult } from '@/lib/store/series/analysis-store';
import type { NominalAsked } from '@/lib/store/series/nominal-search';
import type { SeriesStore } from '@/lib/store/series/series-store';
import type { UnitTask } from './unit-task';

/** What is read of the units of some tasks before they are worked out. */
export type Read = { known: KnownResult | null; nominal: number; daily: DailyColumns };

/** Reads them, in a few queries. */
export async function readFor(
  series: SeriesStore,
  tasks: readonly UnitTask[],
): Promise<(task: UnitTask) => Read> {
  const unitIds = tasks.map(({ taken }) => taken.unitId);
  const known = await series.analysis.knownResults(unitIds);
  const [nominal, daily] = await Promise.all([
    series.nominalSensorsOf(tasks.map((task) => nominalAsked(task, known.get(task.taken.unitId) ?? null))),
    series.readDailyOf(unitIds.map((unitId) => ({ unitId }))),
  ]);
  return ({ taken: { unitId } }) => ({
    known: known.get(unitId) ?? null,
    nominal: nominal.get(unitId) ?? 0,
    daily: daily.get(unitId)!,
  });
}

/**
 * What to ask of a unit's nominal sensors: where no reading before the end of those last judged has changed, what they told
 * then stands, and only those since are looked at. Results as of a past day leave their unit due from the beginning.
 */
function nominalAsked(task: UnitTask, known: KnownResult | null): NominalAsked {
  const asked = { unitId: task.taken.unitId, to: endOf(task) };
  if (known === null || known.asOf === null || known.methodVersion !== METHOD_VERSION) return asked;
  const to = endOfDay(known.asOf);
  return task.taken.since < to ? asked : { ...asked, known: { bits: known.nominal, to } };
}

/** Readings up to the one that makes it today are used [ms]. */
function endOfDay(today: number): number {
  return today + 1;
}

/** Readings before this instant are used [ms]. */
export function endOf({ asOf, isPast, now }: UnitTask): number {
  const today = asOf ?? now;
  return isPast ? today : endOfDay(today);
}
