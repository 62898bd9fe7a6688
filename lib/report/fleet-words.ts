import type { Widening } from '@/lib/core/pipeline/unit-trend';
import type { Judgement } from './fleet/unit-summary';
import { formatNumber } from './format/figure';
import { formatDay } from './format/time';
import { countOf, REASON_WORDS } from './format/words';

/** The clean-by answer of a unit: the day, or why there is none; and how sure. */
export type CleanByWords = { main: string; detail: string; isProjected: boolean };

const DAYS_PER_MONTH = 365.25 / 12;

/** What the fleet says of a unit's clean-by day. `lastDay` is its last day with a figure, `today` a local day. */
export function cleanByInWords(
  judged: Judgement | null,
  { today, lastDay }: { today: number; lastDay: number | null },
): CleanByWords {
  if (judged === null || judged.lastReading === null)
    return fact('no readings yet', 'import readings to judge it');
  if (judged.state === 'no-data') return withoutData(judged, lastDay);
  const { limit } = judged;
  if (limit === null) return fact('no limit can be judged', 'see the unit for what is missing');
  if (judged.state === 'over-limit') {
    return limit.crossedDay === null
      ? fact('over limit', 'day of crossing not known')
      : fact(
          `since ${formatDay(limit.crossedDay)}`,
          `over limit for ${countOf(today - limit.crossedDay, 'day')}`,
        );
  }
  if (limit.p50Day !== null) {
    const { p10Day, p50Day, p90Day } = limit;
    return { main: formatDay(p50Day), detail: spreadInWords(p10Day, p50Day, p90Day), isProjected: true };
  }
  const months = Math.round(judged.horizonDays / DAYS_PER_MONTH);
  if (limit.withinHorizon === null) return fact('too early to say', 'too few daily figures in this cycle');
  return {
    main: `not within ${months} months`,
    detail: chanceInWords(limit.withinHorizon),
    isProjected: true,
  };
}

function fact(main: string, detail: string): CleanByWords {
  return { main, detail, isProjected: false };
}

function withoutData({ health }: Judgement, lastDay: number | null): CleanByWords {
  const since = health.sinceDay ?? (lastDay === null ? null : lastDay + 1);
  const reason = health.worstReason;
  return fact(
    since === null ? 'no usable data yet' : `no data since ${formatDay(since)}`,
    reason === null ? 'no readings arrive' : REASON_WORDS[reason],
  );
}

/** "−23 / +34 days": from P50 back to P10 and on to P90. */
function spreadInWords(p10: number | null, p50: number, p90: number | null): string {
  const back = p10 === null ? 'open' : `−${formatNumber(p50 - p10, 0)}`;
  const on = p90 === null ? 'open' : `+${formatNumber(p90 - p50, 0)}`;
  return `${back} / ${on} days`;
}

function chanceInWords(withinHorizon: number): string {
  const percent = Math.round(100 * withinHorizon);
  if (percent < 1) return 'under 1 % chance that it is';
  return `${percent} % chance that it is`;
}

/** The cause of poor or absent data with its beginning, to stand where the result is; null where data are fine. */
export function healthInWords(
  judged: Judgement | null,
  poorShare: number,
): { text: string; since: number | null } | null {
  if (judged === null || judged.lastReading === null) return null;
  const { usable, worstReason, sinceDay } = judged.health;
  const isAbsent = judged.state === 'no-data';
  if (!isAbsent && (usable === null || usable >= poorShare)) return null;
  const since = sinceDay === null ? '' : ` since ${formatDay(sinceDay, { year: false })}`;
  const cause = worstReason === null ? 'no readings' : REASON_WORDS[worstReason];
  return { text: `${cause}${since}`, since: sinceDay };
}

/** "P10 and P90 spread 1.3 times, as 96 past projections of the fleet ask for"; null where nothing is spread. */
export function widenedInWords({ factor, from, count }: Widening): string | null {
  if (from === 'none' || factor <= 1) return null;
  const whose = from === 'unit' ? 'of this unit' : 'of the fleet';
  return `P10 and P90 spread ${formatNumber(factor, 1)} times, as ${countOf(count, 'past projection')} ${whose} ${count === 1 ? 'asks' : 'ask'} for`;
}
