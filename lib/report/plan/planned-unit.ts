import { rateOn } from '@/lib/core/cost/dated-rate';
import type { Outlook } from '@/lib/core/pipeline/outlook';
import type { PlanUnitInput } from '@/lib/core/plan/plan-input';
import { unitRates } from '@/lib/report/prices/unit-rates';
import type { AnalysedUnit, SupplyRecord } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import type { LeftOut } from './planning';
import { usualCleaning } from './usual-cleaning';

const SECONDS_PER_DAY = 86_400;

export type UnitPlanning = { unit: PlanUnitInput } | { leftOut: LeftOut };

/**
 * What a plan needs of one unit, from its stored results: what it is expected to lose, the day before which it must be
 * cleaned at a confidence, what a cleaning takes; or why nothing can be planned for it.
 */
export function plannedUnit(
  analysed: AnalysedUnit,
  { supplies, confidence, from }: { supplies: readonly SupplyRecord[]; confidence: number; from: number },
): UnitPlanning {
  const { record, trend, result } = analysed;
  const { tag, site } = record;
  const outlook = trend?.outlook ?? null;
  const asOf = result?.asOf ?? null;
  if (outlook === null || asOf === null) {
    const reason =
      trend === null
        ? 'it has not been analysed'
        : trend.state === 'no-data'
          ? 'it has no usable readings of late'
          : 'it is too early to project its fouling';
    return { leftOut: { tag, reason } };
  }
  const today = localDay(Date.parse(asOf), site.timeZone);
  const { heat, pumping } = unitRates(record.unit, supplies);
  const risk = 1 - confidence;
  const within = ageReached(outlook.ageDays, outlook.reached, risk);
  return {
    unit: {
      tag,
      site: site.name,
      asOf: today,
      ages: outlook.ageDays,
      lostDuty: outlook.lostDuty,
      pumping: outlook.pumping,
      lostDutyAfter: outlook.lostDutyAfter,
      pumpingAfter: outlook.pumpingAfter,
      heatRates: heat.money,
      pumpingRates: pumping.money,
      deadline: within === null ? null : today + within,
      isOverdue: within !== null && today + within <= from,
      life: lifeAfterCleaning(outlook, risk),
      cleaning: cleaningOf(analysed, { outlook, heatRate: rateOn(heat.money, from) }),
    },
  };
}

function cleaningOf(
  { record, cleanings }: AnalysedUnit,
  { outlook, heatRate }: { outlook: Outlook; heatRate: number | null },
): PlanUnitInput['cleaning'] {
  const stated = record.unit.cleaning ?? {};
  const { cost, durationMs, method } = usualCleaning(record.unit, cleanings);
  return {
    cost,
    durationDays: durationMs / (1000 * SECONDS_PER_DAY),
    crewHours: stated.crewHours ?? 0,
    method,
    inOutageOnly: stated.inOutageOnly ?? false,
    downtimePerDay:
      stated.downtimePerHour === undefined
        ? Math.max(0, outlook.duty) * SECONDS_PER_DAY * (heatRate ?? 0)
        : stated.downtimePerHour * 24,
  };
}

/** Days after a cleaning until the limit is reached with the given probability; null: not foreseen, or a cleaning does not bring it below. */
function lifeAfterCleaning({ ageDays, reachedAfter }: Outlook, risk: number): number | null {
  const life = ageReached(ageDays, reachedAfter, risk);
  return life === 0 ? null : life;
}

/** First age at which a probability that grows with age reaches a level, on a straight line between ages; null: none. */
function ageReached(ages: readonly number[], reached: readonly number[], level: number): number | null {
  const index = reached.findIndex((probability) => probability >= level);
  if (index === -1) return null;
  if (index === 0) return 0;
  const [before, after] = [reached[index - 1]!, reached[index]!];
  const share = (level - before) / (after - before);
  return ages[index - 1]! + share * (ages[index]! - ages[index - 1]!);
}
