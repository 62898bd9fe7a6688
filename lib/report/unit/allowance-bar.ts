import type { Band } from '@/lib/core/growth/growth';
import type { LimitResult, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { governingLimit } from './fouling-chart';

/** Days ahead to which the bar shows where the value is heading [d] (a month: the usual notice a crew needs). */
export const HEADING_DAYS = 30;

/** The value between clean (0) and limit (1), all as shares of the limit. */
export type AllowanceBar = {
  used: number;
  /** Standard uncertainty of `used`; null where it is not known in the same terms. */
  uncertainty: number | null;
  /** P10 to P90 of the share in `HEADING_DAYS`; null without a projection. */
  heading: { p10: number; p90: number } | null;
  usedText: string;
  limitText: string;
  /** The bar in one sentence. */
  summary: string;
};

/** Null where nothing recent can be said, or no limit can be judged. */
export function allowanceBar(
  trend: UnitTrend | null,
  today: number,
  system: UnitSystem,
): AllowanceBar | null {
  const governing = governingLimit(trend);
  if (trend === null || governing === null || trend.allowanceUsed === null) return null;
  const scale = scaleOf(trend, governing);
  const used = trend.allowanceUsed;
  const uncertainty = scale === null || scale.spread === null ? null : scale.spread / scale.length;
  const heading = scale === null ? null : headingOf(trend, today, scale);
  const percent = (share: number) => formatNumber(share * 100, 0);
  const usedText = `${percent(used)}${uncertainty === null ? '' : ` ± ${percent(uncertainty)}`} %`;
  const limitText = scale === null ? 'limit' : `limit ${formatFigureText(scale.limit, scale.kind, system)}`;
  const ahead =
    heading === null
      ? ''
      : `, projected ${percent(heading.p10)} to ${percent(heading.p90)} % in ${HEADING_DAYS} days`;
  return {
    used,
    uncertainty,
    heading,
    usedText,
    limitText,
    summary: `${usedText} of the way from clean to the limit${ahead}.`,
  };
}

/** What the bar runs along: from a start over a length to the limit, in the limit's own quantity [m²·K/W or Pa]. */
type Scale = {
  kind: 'foulingResistance' | 'pressure';
  start: number;
  length: number;
  limit: number;
  spread: number | null;
  band: Band | null;
};

/** A pressure drop is judged by its own figure: from where the cycle began to its limit. */
function scaleOf(trend: UnitTrend, { limit, foulingResistance, pressureDrop }: LimitResult): Scale | null {
  if (limit.kind !== 'pressure-drop') {
    if (foulingResistance === null || foulingResistance <= 0) return null;
    const spread = trend.foulingResistanceUncertainty;
    const own = { start: 0, length: foulingResistance, limit: foulingResistance, spread, band: trend.band };
    return { kind: 'foulingResistance', ...own };
  }
  if (!pressureDrop || limit.above <= pressureDrop.atStart) return null;
  const { atStart, uncertainty, band } = pressureDrop;
  const length = limit.above - atStart;
  return { kind: 'pressure', start: atStart, length, limit: limit.above, spread: uncertainty, band };
}

function headingOf(trend: UnitTrend, today: number, { band, start, length }: Scale): AllowanceBar['heading'] {
  const cycleStart = trend.cycles.at(-1)?.startDay;
  if (band === null || cycleStart === undefined) return null;
  const age = today - cycleStart + HEADING_DAYS;
  const index = band.ageDays.findIndex((at) => at >= age);
  if (index < 0) return null;
  return { p10: (band.p10[index]! - start) / length, p90: (band.p90[index]! - start) / length };
}
