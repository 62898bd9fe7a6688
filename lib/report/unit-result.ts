import type { Site, Unit } from '@/lib/contract/fleet-file';
import type { DailyFigure, DailyResult, PastProjections, UnitResult } from '@/lib/contract/results';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import { type CleaningDayInput, cleaningDay } from './prices/cleaning-day';
import { recentLosses, unitMoney } from './prices/unit-money';
import { unitRates } from './prices/unit-rates';
import { winningUnit, wonByCleaning } from './prices/won-by-cleaning';
import { madeAt, pastProjections } from './record/past-projections';
import { recordSummary } from './record/record-summary';

/** Share of a cycle's life at which the record is told in short [%]. */
const HALF_LIFE = 50;

export type ResultInput = Omit<CleaningDayInput, 'unit'> & {
  unit: Unit;
  site: Site;
  /** [ms]; null where the site has no readings at all. */
  asOf: number | null;
};

/** The contract's result of a unit: the trend in dates of the site, money and carbon. */
export function unitResult(input: ResultInput): UnitResult {
  const { unit, site, trend, asOf } = input;
  const losses = recentLosses(input);
  const cleanedBest = cleaningDay(input, losses);
  const governing = trend.governing === null ? null : trend.limits[trend.governing]!;
  const running = trend.cycles.at(-1);
  return {
    tag: unit.tag,
    asOf: asOf === null ? null : isoInZone(asOf, site.timeZone),
    state: trend.state,
    foulingResistance: trend.foulingResistance,
    uncertainty: trend.foulingResistanceUncertainty,
    cleanliness: trend.cleanliness,
    allowanceUsed: trend.allowanceUsed,
    allowanceUsedUncertainty: trend.allowanceUsedUncertainty,
    cycleStart: running === undefined ? null : isoDay(running.startDay),
    growth: {
      models: (trend.growth?.models ?? []).map(({ name, weight, parameters }) => ({
        name,
        weight,
        parameters,
      })),
      ratePerDay: trend.ratePerDay,
    },
    cleanBy: {
      limit: governing?.limit.kind ?? null,
      p10: dayOrNull(governing?.p10Day),
      p50: dayOrNull(governing?.p50Day),
      p90: dayOrNull(governing?.p90Day),
      withinHorizon: governing?.withinHorizon ?? null,
      horizonDays: trend.horizonDays,
      crossedOn: dayOrNull(governing?.crossedDay),
      widenedBy: trend.widening.factor,
      borrowedFrom: trend.borrowed.from === 'none' ? null : trend.borrowed.from,
    },
    lostDuty: trend.lostDuty,
    ...unitMoney(input, site.currency, losses),
    returned: returnedMoney(input),
    economicDate: typeof cleanedBest === 'string' ? null : dayOrNull(cleanedBest.bestDay),
    record: ownRecord({ unit, site, trend }),
    probableCleanings: trend.probableCleanings.map(({ day, before, after, share }) => ({
      day: isoDay(day),
      before,
      after,
      share,
    })),
    health: healthResult(trend.health),
  };
}

function returnedMoney({
  unit,
  site,
  trend,
  supplies,
  cleanings,
  ...known
}: ResultInput): UnitResult['returned'] {
  if (trend.cleaningResults.length === 0) return [];
  const { money } = unitRates(unit, supplies).heat;
  const winning = winningUnit({ ...known, trend });
  return trend.cleaningResults.flatMap(({ at, effect }) => {
    const cost = cleanings.find((cleaning) => cleaning.at === at)?.cost ?? unit.cleaning?.cost ?? null;
    const won = wonByCleaning(winning, { at, effect, cost }, money);
    if (won === null) return [];
    return {
      cleanedAt: isoInZone(at, site.timeZone),
      money: won.money,
      moneyUncertainty: won.moneyUncertainty,
      paidBackOn: dayOrNull(won.paidBackDay),
    };
  });
}

function ownRecord({ unit, site, trend }: Pick<ResultInput, 'unit' | 'site' | 'trend'>): PastProjections {
  const projections = madeAt(pastProjections([{ record: { tag: unit.tag, unit, site }, trend }]), HALF_LIFE);
  const { count, heldShare, medianErrorDays, medianErrorShare } = recordSummary(projections);
  return { count, held: heldShare, medianErrorDays, medianErrorShare };
}

function healthResult(health: UnitTrend['health']): UnitResult['health'] {
  const { usable, worstReason, sinceDay, suspectSinceDay, drift } = health;
  return {
    usable,
    worstReason,
    since: dayOrNull(sinceDay),
    suspectSince: dayOrNull(suspectSinceDay),
    drift:
      drift === null
        ? null
        : {
            kind: drift.kind,
            change: drift.change,
            perMonth: drift.perMonth,
            since: isoDay(drift.sinceDay),
          },
  };
}

function dayOrNull(day: number | null | undefined): string | null {
  return day === null || day === undefined ? null : isoDay(day);
}

/** The contract's daily figures of a unit. */
export function dailyResult(tag: string, daily: DailyColumns): DailyResult {
  const days = Array.from(daily.day, (day, i): DailyFigure => {
    const figure = (column: Float64Array) => (Number.isNaN(column[i]!) ? null : column[i]!);
    return {
      day: isoDay(day),
      readings: daily.readings[i]!,
      accepted: daily.accepted[i]!,
      duty: figure(daily.duty),
      U: figure(daily.overallU),
      cleanU: figure(daily.cleanU),
      foulingResistance: figure(daily.foulingResistance),
      uncertainty: figure(daily.foulingResistanceUncertainty),
      lostDuty: figure(daily.lostDuty),
    };
  });
  return { tag, days };
}
