import type { BalanceDrift } from '@/lib/core/pipeline/balance-drift';
import { HEALTH_DAYS } from '@/lib/core/pipeline/data-health';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { decimalsOf, formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { REASON_WORDS } from '@/lib/report/format/words';
import type { AnalysedUnit } from '@/lib/report/records';

/** How far the data behind the results can be believed, in words. */
export type HealthView = {
  usable: string;
  worst: string;
  /** Null where nothing makes the data suspect. */
  suspectSince: string | null;
  balance: string;
};

/** Null before the first analysis. */
export function healthView({ trend, daily }: AnalysedUnit): HealthView | null {
  if (trend === null) return null;
  const { usable, worstReason, sinceDay, drift, suspectSinceDay } = trend.health;
  const since = sinceDay === null ? '' : `, since ${formatDay(sinceDay)}`;
  return {
    usable:
      usable === null
        ? `no reading while it ran in the last ${HEALTH_DAYS} days`
        : `${formatNumber(usable * 100, 0)} % of the readings while it ran in the last ${HEALTH_DAYS} days`,
    worst: worstReason === null ? 'none: nothing was left out' : `${REASON_WORDS[worstReason]}${since}`,
    suspectSince: suspectSinceDay === null ? null : formatDay(suspectSinceDay),
    balance: balanceInWords(drift, daily),
  };
}

function balanceInWords(drift: BalanceDrift | null, { balance }: DailyColumns): string {
  if (drift !== null) return driftInWords(drift);
  return balance.some((value) => Number.isFinite(value))
    ? 'no lasting change found'
    : 'cannot be checked: no reading holds everything a balance needs';
}

/** "The balance has been moving since 4 Sep 2026, by +3.1 ± 0.8 % so far …. Some sensor is suspect; one balance cannot tell which." */
export function driftInWords(drift: BalanceDrift): string {
  const { kind, sinceDay, change, changeUncertainty, perMonth, perMonthUncertainty } = drift;
  const size = percent(change, changeUncertainty);
  const rate =
    perMonth === null || perMonthUncertainty === null
      ? ''
      : ` (${percent(perMonth, perMonthUncertainty)} in 30 days)`;
  const moved =
    kind === 'drift'
      ? `The balance has been moving since ${formatDay(sinceDay)}, by ${size} so far${rate}`
      : `The balance moved by ${size} at once, on ${formatDay(sinceDay)}, and stayed`;
  const sides = change > 0 ? 'more' : 'less';
  return `${moved}: against the cold side the hot side now gives ${sides} heat than it did. Some sensor is suspect; one balance cannot tell which.`;
}

function percent(share: number, uncertainty: number): string {
  const decimals = Math.max(0, decimalsOf(uncertainty * 100));
  const sign = share > 0 ? '+' : '';
  return `${sign}${formatNumber(share * 100, decimals)} ± ${formatNumber(uncertainty * 100, decimals)} %`;
}
