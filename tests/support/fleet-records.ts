import type { State } from '@/lib/contract/results';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import type { Limit } from '@/lib/core/exchange/exchanger';
import type { LimitResult, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import type { AnalysedUnit, FleetRecords, SiteRecord } from '@/lib/report/records';

const DAY_MS = 86_400_000;
export const ALLOWANCE = 4e-4;
/** 25 Nov 2026, 10:00 UTC. */
export const NOW = Date.UTC(2026, 10, 25, 10);
export const TODAY = Math.floor(NOW / DAY_MS);

export const QUAY: SiteRecord = { id: 1, name: 'Quay', timeZone: 'UTC', currency: 'EUR' };

/** A unit's story in a few words; the rest of the record is made up around it. */
export type Story = {
  tag: string;
  service?: string;
  site?: SiteRecord;
  state?: State;
  /** Ages of the last cleanings in days, newest first. */
  cleaned?: number[];
  /** Days a cycle takes from clean to the limit. */
  cycleDays?: number;
  /** Days from today to P10, P50, P90. */
  cleanBy?: [number | null, number | null, number | null];
  withinHorizon?: number;
  crossedDaysAgo?: number;
  lostDuty?: number | null;
  perDay?: number | null;
  usable?: number | null;
  /** No figure in the last days. */
  silentDays?: number;
  recordDays?: number;
};

/** Daily figures that rise from 0 to 1 allowance in each cycle, with a small ripple. */
export function dailyOf(story: Story): DailyColumns {
  const { cleaned = [60], cycleDays = 120, silentDays = 0, recordDays = 365, usable = 0.95 } = story;
  const length = recordDays - silentDays;
  const daily = makeDailyColumns(length);
  for (let row = 0; row < length; row++) {
    const age = recordDays - row;
    const since = cleaned.find((days) => days >= age) ?? recordDays + cycleDays / 3;
    daily.day[row] = TODAY - age;
    daily.readings[row] = 24;
    daily.accepted[row] = Math.round(24 * (usable ?? 0));
    daily.foulingResistance[row] = ALLOWANCE * ((since - age) / cycleDays + 0.02 * Math.sin(row * 1.7));
  }
  return daily;
}

export function trendOf(story: Story): UnitTrend {
  const { state = 'fouling', cleaned = [60], cycleDays = 120, cleanBy = [50, 60, 75], usable = 0.95 } = story;
  const [p10, p50, p90] = cleanBy;
  const day = (ahead: number | null) => (ahead === null ? null : TODAY + ahead);
  const used = (cleaned[0] ?? 60) / cycleDays;
  const start = TODAY - (cleaned[0] ?? 60);
  const limit: LimitResult = {
    limit: { kind: 'fouling-resistance', value: ALLOWANCE },
    foulingResistance: ALLOWANCE,
    p10Day: day(p10),
    p50Day: day(p50),
    p90Day: day(p90),
    withinHorizon: story.withinHorizon ?? 1,
    crossedDay: story.crossedDaysAgo === undefined ? null : TODAY - story.crossedDaysAgo,
    crossing: null,
    pressureDrop: null,
  };
  return {
    lastReading: NOW - 3_600_000,
    state,
    foulingResistance: used * ALLOWANCE,
    foulingResistanceUncertainty: 0.05 * ALLOWANCE,
    cleanliness: 0.8,
    allowanceUsed: used,
    allowanceUsedUncertainty: 0.05,
    cycles: [
      {
        start: start * DAY_MS,
        end: null,
        startDay: start,
        endDay: TODAY,
        began: 'cleaning',
        figures: 60,
        foulingAtStart: 0,
        foulingAtEnd: used * ALLOWANCE,
        growth: null,
      },
    ],
    growth: {
      models: [],
      count: 60,
      spanDays: 60,
      lastAgeDays: 60,
      autocorrelation: 0.3,
      residualDeviation: 1e-5,
      ratePerDay: ALLOWANCE / cycleDays,
      ratePerDayUncertainty: ALLOWANCE / cycleDays / 10,
      foulingResistance: used * ALLOWANCE,
      foulingResistanceUncertainty: 1e-5,
      isFormExpected: false,
      widening: 1,
    },
    ratePerDay: ALLOWANCE / cycleDays,
    limits: [limit],
    governing: 0,
    horizonDays: 730,
    band: bandOf(used, TODAY - start, cleanBy),
    lostDuty: story.lostDuty === undefined ? 30_000 : story.lostDuty,
    energyLostSinceCleaning: 1e11,
    energyLostLast30Days: 5e10,
    probableCleanings: [],
    cleaningResults: [],
    record: [],
    lending: null,
    outlook: null,
    widening: { factor: 1, from: 'none', count: 0 },
    flowDependence: null,
    borrowed: { from: 'none', cycles: 0, units: 0 },
    health: {
      usable,
      worstReason: usable !== null && usable < 0.5 ? 'frozen-sensor' : null,
      sinceDay: usable !== null && usable < 0.5 ? TODAY - (story.silentDays ?? 30) : null,
      drift: null,
      suspectSinceDay: null,
    },
  };
}

function bandOf(used: number, age: number, [p10, p50, p90]: [number | null, number | null, number | null]) {
  const count = 60;
  const line = (days: number | null) =>
    Float64Array.from(
      { length: count },
      (_, at) => ALLOWANCE * (used + ((1 - used) * at * 12) / (days ?? 3000)),
    );
  return {
    ageDays: Float64Array.from({ length: count }, (_, at) => age + at * 12),
    p10: line(p90),
    p50: line(p50),
    p90: line(p10),
  };
}

export function unitOf(story: Story, id = 1): AnalysedUnit {
  const limit: Limit = { kind: 'fouling-resistance', value: ALLOWANCE };
  const site = story.site ?? QUAY;
  return {
    record: {
      id,
      tag: story.tag,
      site,
      unit: { tag: story.tag, service: story.service } as AnalysedUnit['record']['unit'],
      exchanger: { limits: [limit] } as AnalysedUnit['record']['exchanger'],
      settings: DEFAULT_CHECK_SETTINGS,
      version: 1,
      versionSince: 0,
    },
    trend: trendOf(story),
    result: {
      cost: {
        currency: site.currency,
        sinceCleaning: null,
        last30Days: null,
        perDay: story.perDay === undefined ? 60 : story.perDay,
      },
    } as AnalysedUnit['result'],
    daily: dailyOf(story),
    cleanings: (story.cleaned ?? [60])
      .map((days, index) => ({
        id: index,
        at: (TODAY - days) * DAY_MS + 36e5 * 9,
        revision: 0,
        durationMs: null,
        method: 'hot wash',
        cost: null,
        note: null,
      }))
      .reverse(),
  };
}

export function fleetOf(stories: Story[], sites: SiteRecord[] = [QUAY]): FleetRecords {
  return {
    sites,
    units: stories.map((story, index) => unitOf(story, index + 1)),
    outages: [],
    supplies: [],
    planned: [],
    acceptedPlans: [],
    now: NOW,
    clock: NOW,
    due: 0,
  };
}
