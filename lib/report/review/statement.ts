import type { UnitStatement } from '@/lib/contract/review';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

/** What a trend says of its unit, in the few figures that a later review compares with. */
export function statementOf(trend: UnitTrend): UnitStatement {
  const limit = trend.governing === null ? null : trend.limits[trend.governing]!;
  return {
    state: trend.state,
    cycleStartDay: trend.cycles.at(-1)?.startDay ?? null,
    limit: limit?.limit.kind ?? null,
    allowanceUsed: trend.allowanceUsed,
    allowanceUsedUncertainty: trend.allowanceUsedUncertainty,
    p10Day: limit?.p10Day ?? null,
    p50Day: limit?.p50Day ?? null,
    p90Day: limit?.p90Day ?? null,
    withinHorizon: limit?.withinHorizon ?? null,
    horizonDays: trend.horizonDays,
    crossedDay: limit?.crossedDay ?? null,
    lostDuty: trend.lostDuty,
    usable: trend.health.usable,
    worstReason: trend.health.worstReason,
    // Results of an earlier method have neither drift nor falls.
    suspectSinceDay: trend.health.suspectSinceDay ?? null,
    drift: driftOf(trend),
    probableCleanings: (trend.probableCleanings ?? []).map(({ day }) => day),
  };
}

function driftOf({ health }: UnitTrend): UnitStatement['drift'] {
  const drift = health.drift ?? null;
  if (drift === null) return null;
  const { sinceDay, change, changeUncertainty } = drift;
  return { sinceDay, change, changeUncertainty };
}
