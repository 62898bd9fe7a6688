import type { PlanResult } from '@/lib/contract/plan';
import { currencySign, formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';
import type { DraftPrice } from './draft-price';
import { optionAt, type PlanDesk, type Spot } from './plan-desk';

const MINUTES_PER_DAY = 1440;
/** A gap below this is none: 0.005 % [-]. */
const LEAST_GAP = 0.00005;

/** A local moment: "4 Jan 2027" at midnight, else "4 Jan 2027, 06:00". */
export function momentInWords(moment: number): string {
  const minutes = Math.round((moment - Math.floor(moment)) * MINUTES_PER_DAY);
  const day = formatDay(Math.floor(moment));
  if (minutes === 0) return day;
  if (minutes === MINUTES_PER_DAY) return formatDay(Math.floor(moment) + 1);
  const two = (part: number) => String(part).padStart(2, '0');
  return `${day}, ${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/** How long a unit is out: "12 h", "3 days". */
export function durationInWords(days: number): string {
  return days < 2 ? `${formatNumber(days * 24, 0)} h` : countOf(Number(days.toFixed(1)), 'day');
}

/** The outage a cleaning lies in, or that it lies in none. */
export function whereInWords(desk: PlanDesk, spot: Spot): string {
  const { outage } = optionAt(desk, spot);
  return outage === null ? 'outside outages' : desk.input.outages[outage]!.name;
}

/** Money to the whole unit: a plan is not known to the cent. */
export function moneyInWords(amount: number, currency: string): string {
  return `${formatNumber(amount, 0)}\u00a0${currencySign(currency)}`;
}

/** Money with its sign: "+1,240 €", "−320 €", "no change". */
export function changeInWords(change: number, currency: string): string {
  if (Math.abs(change) < 0.5) return 'no change';
  return `${change > 0 ? '+' : ''}${moneyInWords(change, currency)}`;
}

/** The plan in a sentence: "12 cleanings by 30 Nov 2027, 41,300 € in all". */
export function headInWords({ cost, cleanings }: DraftPrice, desk: PlanDesk): string {
  const by = formatDay(desk.input.to - 1);
  const what = cleanings.length === 0 ? 'Nothing to be cleaned' : countOf(cleanings.length, 'cleaning');
  return `${what} by ${by}, ${moneyInWords(cost.total, desk.currency)} in all`;
}

/** Its parts: "cleaning 12,000 €, downtime 0 €, expected loss 29,300 €". */
export function partsInWords({ cost }: DraftPrice, currency: string): string {
  const part = (name: string, amount: number) => `${name} ${moneyInWords(amount, currency)}`;
  return [
    part('cleaning', cost.cleaning),
    part('downtime', cost.downtime),
    part('expected loss', cost.loss),
  ].join(', ');
}

/** How good a solved plan is, and what it took. */
export function solvedInWords({ status, gap, seconds, isTimeUp }: PlanResult): string {
  const took = isTimeUp
    ? `stopped at its time limit after ${formatNumber(seconds, 1)} s`
    : `solved in ${formatNumber(seconds, 1)} s`;
  if (status === 'infeasible' && isTimeUp)
    return `No plan that keeps every constraint was found in the time; this one breaks least of those found. It was ${took}.`;
  if (status === 'infeasible')
    return `No plan keeps every constraint; this one breaks least. It was ${took}.`;
  if (status === 'optimal' || (gap !== null && gap < LEAST_GAP))
    return `No plan that keeps every constraint costs less; ${took}.`;
  if (gap === null) return `How much less a plan could cost is not known; ${took}.`;
  return `At most ${percent(gap)} above the least possible cost; ${took}.`;
}

function percent(share: number): string {
  const decimals = share < 0.001 ? 2 : 1;
  return `${formatNumber(Math.ceil(share * 100 * 10 ** decimals) / 10 ** decimals, decimals)} %`;
}

/** "at 90 %" as people say it. */
export function confidenceInWords(confidence: number): string {
  return `${formatNumber(100 * confidence, 0)} %`;
}
