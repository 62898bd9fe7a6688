import { type PlanCleaning, type PlanRequest, type PlanResult, planRequestSchema } from '@/lib/contract/plan';

/** A plan's cleaning of half a day; what is not of interest is made up. */
export function plannedCleaning(
  tag: string,
  start: string,
  changes: Partial<PlanCleaning> = {},
): PlanCleaning {
  return {
    tag,
    start,
    end: new Date(Date.parse(start) + 12 * 3_600_000).toISOString(),
    outage: null,
    reason: 'pays',
    cost: 4000,
    saves: 9000,
    method: 'hot caustic wash',
    crewHours: 16,
    isLocked: false,
    cleanBefore: null,
    daysLate: 0,
    ...changes,
  };
}

export function planResultOf(cleanings: PlanCleaning[], changes: Partial<PlanResult> = {}): PlanResult {
  const nothing = { cleaning: 0, downtime: 0, loss: 0 };
  const rule = { total: null, cost: null, cleanings: 0, broken: [] };
  return {
    status: 'optimal',
    gap: 0,
    asOf: '2025-03-07T00:00:00Z',
    from: '2025-03-07',
    to: '2026-03-06',
    confidence: 0.9,
    currency: 'EUR',
    cost: { ...nothing, total: 0 },
    bound: 0,
    cleanings,
    compared: {
      allAtNextOutage: rule,
      fixedInterval: { ...rule, days: null },
      noCleaning: { total: 0, beyondLimit: 0 },
    },
    clashes: [],
    leftOut: [],
    seconds: 0,
    isTimeUp: false,
    ...changes,
  };
}

export const ANY_REQUEST: PlanRequest = planRequestSchema.parse({});
