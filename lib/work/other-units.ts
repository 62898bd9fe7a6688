import type { Unit } from '@/lib/contract/fleet-file';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { TrendInput } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { widen } from '@/lib/core/pipeline/widen';
import type { StoredResult } from '@/lib/store/entities/results';
import type { StoredUnit } from '@/lib/store/entities/units';
import { DAY_MS } from '@/lib/time/calendar-day';

/** What the rest of the fleet says to a unit. */
export type Others = Required<Pick<TrendInput, 'likeUnits' | 'fleetRecord'>>;

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

/** Whether a trend already allows for everything the others say. */
export function isToldAlready(trend: UnitTrend, { likeUnits, fleetRecord }: Others): boolean {
  const { factor, from, count } = widen(trend.record, [...fleetRecord, ...trend.record]);
  const { widening, borrowed } = trend;
  const isWidened = widening.factor === factor && widening.from === from && widening.count === count;
  if (borrowed.from === 'own-cycles') return isWidened;
  const cycles = likeUnits.reduce((sum, lending) => sum + lending.cycles, 0);
  return isWidened && borrowed.units === likeUnits.length && borrowed.cycles === cycles;
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
    likeUnits: rest
      .filter(({ other }) => isLikeService(unit.unit, other.unit))
      .flatMap(({ telling }) => (telling.lending === null ? [] : [telling.lending])),
    fleetRecord: rest.flatMap(({ telling }) => telling.record),
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
