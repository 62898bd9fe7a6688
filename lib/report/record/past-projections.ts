import type { Site } from '@/lib/contract/fleet-file';
import type { Hindcast } from '@/lib/core/pipeline/unit-trend';
import type { AnalysedUnit, UnitRecord } from '@/lib/report/records';

/** One past projection of a unit of the fleet beside what came of it. */
export type PastProjection = Hindcast & {
  tag: string;
  service: string;
  site: string;
  /** Days that were left when it was made. */
  daysLeft: number;
  /** P50 less the day it came true [days]: above 0 it promised more time than there was; null where it gave no day. */
  errorDays: number | null;
  /** The same as a share of the days that were left [-]. */
  errorShare: number | null;
};

/** Of a unit only its name, service and site are wanted, and its trend. */
type UnitPast = Pick<AnalysedUnit, 'trend'> & { record: Pick<UnitRecord, 'tag' | 'unit'> & { site: Site } };

/** The past projections of all units, in the order of the units. */
export function pastProjections(units: readonly UnitPast[]): PastProjection[] {
  return units.flatMap(({ record, trend }) =>
    (trend?.record ?? []).map((hindcast) => {
      const { p50Day, reachedDay, madeDay } = hindcast;
      const daysLeft = Math.max(1, reachedDay - madeDay);
      const errorDays = p50Day === null ? null : p50Day - reachedDay;
      return {
        ...hindcast,
        tag: record.tag,
        service: record.unit.service ?? '',
        site: record.site.name,
        daysLeft,
        errorDays,
        errorShare: errorDays === null ? null : errorDays / daysLeft,
      };
    }),
  );
}

/** Those made at a share of their cycle's life [%]. */
export function madeAt(projections: readonly PastProjection[], life: number): PastProjection[] {
  return projections.filter(({ shareOfLife }) => shareOfLife === life / 100);
}

/** Those whose band did not hold the day, furthest outside it first. */
export function worstMisses(projections: readonly PastProjection[]): PastProjection[] {
  return projections
    .filter(({ held }) => !held)
    .sort((a, b) => b.score - a.score || a.tag.localeCompare(b.tag, 'en') || a.madeDay - b.madeDay);
}
