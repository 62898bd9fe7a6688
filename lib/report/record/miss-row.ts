import { formatNumber, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { parseUnitAddress, unitHref } from '@/lib/report/unit/unit-address';
import type { PastProjection } from './past-projections';
import { errorInWords } from './record-words';

/** A past projection whose band did not hold the day. */
export type MissRow = {
  key: string;
  tag: string;
  /** The unit over the cycle it was made in. */
  href: string;
  service: string;
  madeOn: string;
  projected: string;
  reached: string;
  error: string;
  /** How far outside, in half-widths of its band. */
  score: string;
};

/** Days shown on the unit's page after the day that came [days]. */
const DAYS_AFTER = 14;
/** So many half-widths, or no width at all, are simply many. */
const MANY = 99;

export function missRow(projection: PastProjection, units: string | null): MissRow {
  const { tag, service, madeDay, reachedDay, cycleStartDay, score, errorDays } = projection;
  return {
    key: `${tag} ${cycleStartDay} ${projection.shareOfLife}`,
    tag,
    href: unitHref({
      ...parseUnitAddress(tag, {}),
      units,
      period: 'custom',
      fromDay: cycleStartDay,
      toDay: reachedDay + DAYS_AFTER,
    }),
    service,
    madeOn: formatDay(madeDay),
    projected: projectedInWords(projection),
    reached: `${formatDay(reachedDay)}${projection.isLimit ? '' : ', near the cleaning'}`,
    error: errorInWords(errorDays),
    score: score < MANY ? `${formatNumber(score, 1)} ×` : `over ${MANY} ×`,
  };
}

/** "12 Mar 2026 (2 Mar – 30 Mar)". */
function projectedInWords({ p10Day, p50Day, p90Day }: PastProjection): string {
  if (p50Day === null) return 'not within the horizon';
  const end = (day: number | null) => (day === null ? MISSING : formatDay(day, { year: false }));
  return `${formatDay(p50Day)} (${end(p10Day)} to ${p90Day === null ? 'open' : end(p90Day)})`;
}
