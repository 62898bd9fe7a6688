import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
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
  // A pressure drop is judged by its own figure: a fouling resistance has no place on its scale.
  const limit = governing.limit.kind === 'pressure-drop' ? null : governing.foulingResistance;
  const used = trend.allowanceUsed;
  const spread = trend.foulingResistanceUncertainty;
  const uncertainty = limit === null || spread === null ? null : spread / limit;
  const heading = limit === null ? null : headingOf(trend, today, limit);
  const percent = (share: number) => formatNumber(share * 100, 0);
  const usedText = `${percent(used)}${uncertainty === null ? '' : ` ± ${percent(uncertainty)}`} %`;
  const limitText =
    limit === null ? 'limit' : `limit ${formatFigureText(limit, 'foulingResistance', system)}`;
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

function headingOf(trend: UnitTrend, today: number, limit: number): AllowanceBar['heading'] {
  const start = trend.cycles.at(-1)?.startDay;
  if (trend.band === null || start === undefined) return null;
  const age = today - start + HEADING_DAYS;
  const index = trend.band.ageDays.findIndex((at) => at >= age);
  if (index < 0) return null;
  return { p10: trend.band.p10[index]! / limit, p90: trend.band.p90[index]! / limit };
}
