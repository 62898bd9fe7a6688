import type { UnitStatement } from '@/lib/contract/review';
import type { UnitFacts } from '@/lib/report/review/unit-facts';

/** A Wednesday and the one before it. */
export const NOW_DAY = 20_782;
export const BEFORE_DAY = NOW_DAY - 7;

/** What is said of a unit half way to its limit, with all its readings usable. */
export function statement(changes: Partial<UnitStatement> = {}): UnitStatement {
  return {
    state: 'fouling',
    cycleStartDay: NOW_DAY - 100,
    limit: 'fouling-resistance',
    allowanceUsed: 0.5,
    allowanceUsedUncertainty: 0.03,
    p10Day: NOW_DAY + 90,
    p50Day: NOW_DAY + 100,
    p90Day: NOW_DAY + 120,
    withinHorizon: 1,
    horizonDays: 730,
    crossedDay: null,
    lostDuty: 12_000,
    usable: 1,
    worstReason: null,
    suspectSinceDay: null,
    drift: null,
    probableCleanings: [],
    ...changes,
  };
}

/** A unit described alike then and now, but for the changes. */
export function facts({
  before = {},
  now = {},
  ...rest
}: { before?: Partial<UnitStatement>; now?: Partial<UnitStatement> } & Partial<
  Omit<UnitFacts, 'before' | 'now'>
> = {}): UnitFacts {
  return {
    before: statement(before),
    beforeDay: BEFORE_DAY,
    now: statement(now),
    nowDay: NOW_DAY,
    cleanings: [],
    falls: [],
    lastAcceptedDay: NOW_DAY,
    lastReceivedDay: NOW_DAY,
    ...rest,
  };
}
