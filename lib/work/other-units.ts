import { expectationFromLike } from '@/lib/core/pipeline/lending';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { TrendInput } from '@/lib/core/pipeline/trend-unit';
import { sortedScores } from '@/lib/core/pipeline/widen';
import type { StoredUnit } from '@/lib/store/entities/units';
import type { StoredTelling } from '@/lib/store/series/analysis-store';
import { serviceOf, type Telling } from './analysis/hearing';

/** What the rest of the fleet says to a unit. */
export type Others = Required<Pick<TrendInput, 'like' | 'fleet'>>;

/** A unit that says something to the others. */
export type Teller = Pick<Telling, 'service' | 'lending' | 'scores'> & { unitId: number };

/** What units say by results made with today's method. */
export function tellersOf(tellings: readonly StoredTelling[]): Teller[] {
  return tellings
    .filter(({ methodVersion }) => methodVersion === METHOD_VERSION)
    .map(({ unitId, telling }) => ({ ...(JSON.parse(telling) as Telling), unitId }));
}

/**
 * What every other unit says to one: those of like service lend what their cycles taught, all of them the record of
 * their past projections. Unlike at an analysis its own word is not among them even where it has ended cycles: on the day
 * looked at it may have had none.
 */
export function othersOf({ id, unit }: StoredUnit, tellers: readonly Teller[]): Others {
  const rest = tellers.filter(({ unitId }) => unitId !== id);
  const service = serviceOf(unit);
  return {
    like: expectationFromLike(
      rest.flatMap((other) => (other.service === service && other.lending !== null ? [other.lending] : [])),
    ),
    fleet: { scores: sortedScores(rest.map(({ scores }) => scores)), own: [] },
  };
}
