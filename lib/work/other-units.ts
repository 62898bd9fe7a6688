import type { Unit } from '@/lib/contract/fleet-file';
import { expectationFromLike } from '@/lib/core/pipeline/lending';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { TrendInput } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { sortedScores } from '@/lib/core/pipeline/widen';
import type { StoredResult } from '@/lib/store/entities/results';
import type { StoredUnit } from '@/lib/store/entities/units';
import { DAY_MS } from '@/lib/time/calendar-day';

/** What the rest of the fleet says to a unit. */
export type Others = Required<Pick<TrendInput, 'like' | 'fleet'>>;

/** What each unit says to the others. */
type Telling = Pick<UnitTrend, 'lending' | 'record'>;

/** What units say by results made with today's method, and of no later day than the one looked at [ms]. */
export function tellingsOf(
  results: ReadonlyMap<number, StoredResult>,
  asOf: number | null,
): ReadonlyMap<number, Telling> {
  const isHeard = (result: StoredResult) =>
    result.methodVersion === METHOD_VERSION &&
    (asOf === null || result.asOf === null || result.asOf <= asOf + DAY_MS);
  return new Map(
    [...results].filter(([, result]) => isHeard(result)).map(([unitId, { trend }]) => [unitId, trend]),
  );
}

/**
 * What every other unit says to one: those of like service lend what their cycles taught, all of them the record of
 * their past projections.
 */
export function othersOf(
  unit: StoredUnit,
  units: readonly StoredUnit[],
  tellings: ReadonlyMap<number, Telling>,
): Others {
  const rest = units
    .filter(({ id }) => id !== unit.id && tellings.has(id))
    .map((other) => ({ other, telling: tellings.get(other.id)! }));
  return {
    like: expectationFromLike(
      rest
        .filter(({ other }) => isLikeService(unit.unit, other.unit))
        .flatMap(({ telling }) => (telling.lending === null ? [] : [telling.lending])),
    ),
    fleet: {
      scores: sortedScores(rest.map(({ telling }) => telling.record.map(({ score }) => score))),
      own: [],
    },
  };
}

/** Like service: the same construction with the same fluid on either side. */
function isLikeService(one: Unit, other: Unit): boolean {
  return (
    one.construction === other.construction &&
    one.hot.fluid === other.hot.fluid &&
    one.cold.fluid === other.cold.fluid
  );
}
