import type { Site, Unit } from '@/lib/contract/fleet-file';
import type { DailyFigure, DailyResult, PastProjections, UnitResult } from '@/lib/contract/results';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import { carbonFor, moneyFor } from './price-of-heat';
import { madeAt, pastProjections } from './record/past-projections';
import { recordSummary } from './record/record-summary';

const SECONDS_PER_DAY = 86_400;
/** Share of a cycle's life at which the record is told in short [%]. */
const HALF_LIFE = 50;

export type ResultInput = {
  unit: Unit;
  site: Site;
  trend: UnitTrend;
  /** [ms]; null where the site has no readings at all. */
  asOf: number | null;
  economicDay: number | null;
};

/** The contract's result of a unit: the trend in dates of the site, money and carbon. */
export function unitResult({ unit, site, trend, asOf, economicDay }: ResultInput): UnitResult {
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
    energyLost: { sinceCleaning: trend.energyLostSinceCleaning, last30Days: trend.energyLostLast30Days },
    ...moneyAndCarbon(unit, site.currency, trend),
    economicDate: dayOrNull(economicDay),
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

function moneyAndCarbon(unit: Unit, currency: string, trend: UnitTrend): Pick<UnitResult, 'cost' | 'carbon'> {
  const perDay = trend.lostDuty === null ? null : trend.lostDuty * SECONDS_PER_DAY;
  const lost = {
    sinceCleaning: trend.energyLostSinceCleaning,
    last30Days: trend.energyLostLast30Days,
    perDay,
  };
  const priced = (of: typeof moneyFor) => ({
    sinceCleaning: of(lost.sinceCleaning, unit),
    last30Days: of(lost.last30Days, unit),
    perDay: of(lost.perDay, unit),
  });
  return {
    cost: unit.energy?.price === undefined ? null : { currency, ...priced(moneyFor) },
    carbon: unit.energy?.carbon === undefined ? null : priced(carbonFor),
  };
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
