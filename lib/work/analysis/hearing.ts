import type { Unit } from '@/lib/contract/fleet-file';
import { type Expectation, expectationFromLike, type Lending } from '@/lib/core/pipeline/lending';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { UnitTrend, Widening } from '@/lib/core/pipeline/unit-trend';
import { sortedScores, widen } from '@/lib/core/pipeline/widen';
import type { StoredTelling } from '@/lib/store/series/analysis-store';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Others } from '../other-units';

/** What a unit tells the others, and what it has been told itself; kept with its results as JSON. */
export type Telling = {
  /** Units of equal service lend each other what their cycles taught. */
  service: string;
  lending: Lending | null;
  /** Scores of its past projections [-]. */
  scores: number[];
  /** What its results allow for of all that the others say. */
  told: string;
};

type Teller = Telling & { unitId: number; asOf: number | null };

/** What a fleet says to each of its units. */
export type Hearing = {
  /** What every other unit says to one, as of an instant [ms]. */
  othersOf: (unit: Listener) => Others;
  /** Whether the results of a unit allow for all that the others say to it. */
  isTold: (unitId: number) => boolean;
};

/** Who listens: a unit, what it serves, and the day it is looked at [ms]. */
export type Listener = { unitId: number; service: string; asOf: number | null };

/** Like service: the same construction with the same fluid on either side. */
export function serviceOf({ construction, hot, cold }: Unit): string {
  return JSON.stringify([construction ?? null, hot.fluid, cold.fluid]);
}

/** What is kept of a trend for the others to hear. */
export function tellingOf(unit: Unit, trend: UnitTrend, { like }: Others): Telling {
  return {
    service: serviceOf(unit),
    lending: trend.lending,
    scores: trend.record.map(({ score }) => score),
    told: toldBy(trend, like),
  };
}

/** Two trends of one unit are equal where they were told the same; only a unit without ended cycles listens to like ones. */
function toldBy(
  { lending, widening }: { lending: Lending | null; widening: Widening },
  like: Expectation,
): string {
  return JSON.stringify([widening, lending === null ? like : null]);
}

/** What units say by results made with today's method, and of no later day than the one that is looked at. */
export function hearingOf(tellings: readonly StoredTelling[]): Hearing {
  const tellers = tellings
    .filter(({ methodVersion }) => methodVersion === METHOD_VERSION)
    .map(({ unitId, asOf, telling }): Teller => ({ unitId, asOf, ...(JSON.parse(telling) as Telling) }));
  const byUnit = new Map(tellers.map((teller) => [teller.unitId, teller]));
  const newest = tellers.reduce((last, { asOf }) => Math.max(last, asOf ?? 0), 0);
  const heard = new Map<number, Fleet>();
  const heardAt = (asOf: number | null): Fleet => {
    const until = asOf === null || asOf + DAY_MS >= newest ? newest : asOf + DAY_MS;
    const known = heard.get(until) ?? fleetOf(tellers.filter((teller) => (teller.asOf ?? 0) <= until));
    heard.set(until, known);
    return known;
  };
  const othersOf = ({ unitId, service, asOf }: Listener): Others => {
    const { scores, isHeard, likeOf } = heardAt(asOf);
    const own = isHeard(unitId) ? byUnit.get(unitId)!.scores : [];
    return { like: likeOf(service), fleet: { scores, own } };
  };
  return {
    othersOf,
    isTold: (unitId) => {
      const own = byUnit.get(unitId);
      if (own === undefined) return false;
      const { like, fleet } = othersOf(own);
      return own.told === toldBy({ lending: own.lending, widening: widen(own.scores, fleet) }, like);
    },
  };
}

/** What those heard say together, worked out once however many units listen. */
type Fleet = {
  /** Scores of all of them, ascending [-]. */
  scores: Float64Array;
  isHeard: (unitId: number) => boolean;
  /** A unit that listens to like ones lends nothing itself: what they say is the same for all of those. */
  likeOf: (service: string) => Expectation;
};

function fleetOf(tellers: readonly Teller[]): Fleet {
  const ids = new Set(tellers.map(({ unitId }) => unitId));
  const lendings = new Map<string, Lending[]>();
  for (const { service, lending } of tellers) {
    if (lending === null) continue;
    const own = lendings.get(service);
    if (own === undefined) lendings.set(service, [lending]);
    else own.push(lending);
  }
  const expected = new Map<string, Expectation>();
  return {
    scores: sortedScores(tellers.map(({ scores }) => scores)),
    isHeard: (unitId) => ids.has(unitId),
    likeOf: (service) => {
      const known = expected.get(service) ?? expectationFromLike(lendings.get(service) ?? []);
      expected.set(service, known);
      return known;
    },
  };
}
