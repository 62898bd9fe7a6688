import type { PastRecord } from '@/lib/contract/past-record';
import type { FleetRecords } from '@/lib/report/records';
import { isoDay } from '@/lib/time/calendar-day';
import { madeAt, type PastProjection, pastProjections } from './past-projections';
import { LIVES } from './record-address';
import { AIM, type RecordSummary, recordSummary, summariesBy } from './record-summary';

/** The contract's record of past projections of the fleet. */
export function recordDocument({ units, now }: FleetRecords): PastRecord {
  const projections = pastProjections(units);
  return {
    asOf: units.some(({ trend }) => trend !== null) ? new Date(now).toISOString() : null,
    aim: AIM,
    byShareOfLife: LIVES.map((life) => {
      const own = madeAt(projections, life);
      return {
        shareOfLife: life / 100,
        ...summaryDocument(recordSummary(own)),
        bySite: summariesBy(own, ({ site }) => site).map(namedDocument),
        byService: summariesBy(own, ({ service }) => service).map(namedDocument),
      };
    }),
    widening: units.flatMap(({ record, trend }) =>
      trend === null ? [] : { tag: record.tag, ...trend.widening },
    ),
    projections: projections.map(projectionDocument),
  };
}

function namedDocument({ name, summary }: { name: string; summary: RecordSummary }) {
  return { name, ...summaryDocument(summary) };
}

function summaryDocument({ interval, ...rest }: RecordSummary) {
  const heldInterval: [number, number] | null = interval === null ? null : [interval.low, interval.high];
  return { ...rest, heldInterval };
}

function projectionDocument(projection: PastProjection): PastRecord['projections'][number] {
  const dayOrNull = (day: number | null) => (day === null ? null : isoDay(day));
  return {
    tag: projection.tag,
    site: projection.site,
    service: projection.service,
    cycleStart: isoDay(projection.cycleStartDay),
    madeOn: isoDay(projection.madeDay),
    shareOfLife: projection.shareOfLife,
    level: projection.level,
    isLimit: projection.isLimit,
    p10: dayOrNull(projection.p10Day),
    p50: dayOrNull(projection.p50Day),
    p90: dayOrNull(projection.p90Day),
    reachedOn: isoDay(projection.reachedDay),
    reachedUncertaintyDays: projection.reachedUncertainty,
    held: projection.held,
    score: Number.isFinite(projection.score) ? projection.score : null,
    errorDays: projection.errorDays,
    errorShare: projection.errorShare,
  };
}
