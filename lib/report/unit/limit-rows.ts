import type { Limit } from '@/lib/core/exchange/exchanger';
import { recentMedian } from '@/lib/core/pipeline/recent-median';
import type { LimitResult, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import {
  type Figure,
  formatFigure,
  formatFigureText,
  formatNumber,
  MISSING,
} from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { AnalysedUnit } from '@/lib/report/records';
import { monthsInWords, probabilityInWords } from './clean-by-statement';

/** One limit of the unit: how far it is used up and when it is reached. */
export type LimitRow = {
  key: string;
  isGoverning: boolean;
  /** What is limited, and the limit itself. */
  label: string;
  limit: string;
  today: Figure;
  used: string;
  p10: string;
  p50: string;
  p90: string;
  /** Probability of reaching it within the horizon, or why there is none. */
  probability: string;
};

export type LimitTable = { rows: LimitRow[]; horizon: string };

/** All limits of a unit side by side; only the one reached first is in the clean-by statement. */
export function limitTable({ trend, daily }: AnalysedUnit, system: UnitSystem): LimitTable {
  if (trend === null) return { rows: [], horizon: '' };
  const rows = trend.limits.map((result, index) => limitRow({ trend, daily, result, system }, index));
  return { rows, horizon: monthsInWords(trend.horizonDays) };
}

type Judged = { trend: UnitTrend; daily: DailyColumns; result: LimitResult; system: UnitSystem };

function limitRow(judged: Judged, index: number): LimitRow {
  const { trend, result, system } = judged;
  const used = usedOf(judged);
  return {
    key: `${index}`,
    isGoverning: trend.governing === index,
    ...limitWords(result.limit, system),
    today: todayOf(judged),
    used: used === null ? MISSING : `${formatNumber(used * 100, 0)} %`,
    ...daysOf(judged),
  };
}

function limitWords(limit: Limit, system: UnitSystem): { label: string; limit: string } {
  switch (limit.kind) {
    case 'fouling-resistance':
      return {
        label: 'Fouling resistance',
        limit: `≤ ${formatFigureText(limit.value, 'foulingResistance', system)}`,
      };
    case 'cleanliness':
      return {
        label: 'Cleanliness',
        limit: `≥ ${formatFigureText(limit.below, 'fraction', system, { digits: 2 })}`,
      };
    case 'outlet-temperature': {
      const [sign, value] = limit.above === null ? ['≥', limit.below] : ['≤', limit.above];
      return {
        label: `${limit.stream === 'hot' ? 'Hot' : 'Cold'} outlet temperature`,
        limit: `${sign} ${formatFigureText(value, 'temperature', system)}`,
      };
    }
    case 'pressure-drop':
      return {
        label: `${limit.stream === 'hot' ? 'Hot' : 'Cold'}-side pressure drop`,
        limit: `≤ ${formatFigureText(limit.above, 'pressure', system)}`,
      };
  }
}

/** What the limit is judged by as it stands today; a dash where nothing recent can be said. */
function todayOf({ trend, daily, result, system }: Judged): Figure {
  const { limit, pressureDrop } = result;
  const isKnown = trend.state !== 'no-data';
  switch (limit.kind) {
    case 'fouling-resistance':
      return formatFigure(trend.foulingResistance, 'foulingResistance', system, {
        uncertainty: trend.foulingResistanceUncertainty,
      });
    case 'cleanliness':
      return formatFigure(trend.cleanliness, 'fraction', system, { digits: 2 });
    case 'outlet-temperature': {
      const column = limit.stream === 'hot' ? daily.hotOut : daily.coldOut;
      return formatFigure(isKnown ? recentMedian(daily, column) : null, 'temperature', system);
    }
    case 'pressure-drop':
      return formatFigure(pressureDrop?.value, 'pressure', system, {
        uncertainty: pressureDrop?.uncertainty ?? null,
      });
  }
}

/** Share of the way from clean to the limit [-]; null where no fouling leads there, or nothing recent can be said. */
function usedOf({ trend, result }: Judged): number | null {
  const { limit, pressureDrop, foulingResistance } = result;
  if (limit.kind === 'pressure-drop') {
    if (!pressureDrop || limit.above <= pressureDrop.atStart) return null;
    return (pressureDrop.value - pressureDrop.atStart) / (limit.above - pressureDrop.atStart);
  }
  if (foulingResistance === null || foulingResistance <= 0 || trend.foulingResistance === null) return null;
  return trend.foulingResistance / foulingResistance;
}

function daysOf({ trend, result }: Judged): Pick<LimitRow, 'p10' | 'p50' | 'p90' | 'probability'> {
  const { p10Day, p50Day, p90Day, crossedDay, withinHorizon } = result;
  if (crossedDay !== null) {
    return { p10: MISSING, p50: MISSING, p90: MISSING, probability: `reached ${formatDay(crossedDay)}` };
  }
  if (withinHorizon === null) {
    return { p10: MISSING, p50: MISSING, p90: MISSING, probability: noAnswer(trend, result) };
  }
  const day = (value: number | null) => (value === null ? 'later' : formatDay(value));
  return {
    p10: day(p10Day),
    p50: day(p50Day),
    p90: day(p90Day),
    probability: probabilityInWords(withinHorizon),
  };
}

function noAnswer({ state }: UnitTrend, { limit, pressureDrop }: LimitResult): string {
  if (state === 'no-data') return 'no recent data';
  if (limit.kind === 'pressure-drop' && !pressureDrop) return 'not measured in this cycle';
  return 'too early to project';
}
