import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

/** Parts of a trend that a result stored by an earlier method lacks, as they are where nothing is known. */
const UNKNOWN = {
  probableCleanings: [],
  cleaningResults: [],
  record: [],
  widening: { factor: 1, from: 'none', count: 0 },
  borrowed: { from: 'none', cycles: 0, units: 0 },
  flowDependence: null,
  lending: null,
  outlook: null,
} as const satisfies Partial<UnitTrend>;

/** A stored trend with every part a page reads: results are worked out anew after an update, but the page may come first. */
export function completeTrend(trend: UnitTrend | null): UnitTrend | null {
  if (trend === null) return null;
  return {
    ...UNKNOWN,
    ...trend,
    cycles: trend.cycles.map((cycle) => ({ ...cycle, began: cycle.began ?? beganBy(cycle.start) })),
    health: { ...trend.health, ...suspicionOf(trend.health) },
  };
}

function beganBy(start: number | null) {
  return start === null ? 'record' : 'cleaning';
}

function suspicionOf({ drift, suspectSinceDay }: UnitTrend['health']) {
  return { drift: drift ?? null, suspectSinceDay: suspectSinceDay ?? null };
}
