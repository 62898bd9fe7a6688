import {
  EXPONENT_DAYS,
  LARGEST_EXPONENT_UNCERTAINTY,
  type LearnedExponent,
} from '@/lib/core/clean/learn-pressure-exponent';
import type { Side } from '@/lib/core/exchange/exchanger';
import { decimalsOf, formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitRecord } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';

/** Which exponent of pressure drop on flow is used, and what the readings after a cleaning say of it. */
export function exponentInWords(record: UnitRecord, side: Side, learned: LearnedExponent | null): string {
  const used = record.exchanger.pressureDropExponents[side];
  const isStated = record.unit.pressureDrop?.[`${side}Exponent`] !== undefined;
  const source = isStated ? 'stated in the datasheet' : 'assumed: the datasheet states none';
  return `${side === 'hot' ? 'Hot' : 'Cold'} side: m = ${used}, ${source}. ${learnedInWords(record, learned, isStated)}`;
}

function learnedInWords({ site }: UnitRecord, learned: LearnedExponent | null, isStated: boolean): string {
  if (learned === null) {
    return `Readings cannot tell it yet: that takes two days of accepted ones within ${EXPONENT_DAYS} days of a recorded cleaning.`;
  }
  const since = `${learned.readings} readings from ${formatDay(localDay(learned.from, site.timeZone))}, just after a cleaning`;
  const spread = `the flow varied by ${formatNumber(learned.flowSpread * 100, 1)} %`;
  if (!learned.isIdentifiable) {
    return `${sentence(since)}, do not settle it (${exponentText(learned)}; ${spread}): that takes an uncertainty of at most ${LARGEST_EXPONENT_UNCERTAINTY} and a value from 1.2 to 2.2.`;
  }
  const use = isStated ? '' : ' State it in the datasheet to use it.';
  return `${sentence(since)}, give m = ${exponentText(learned)} (${spread}).${use}`;
}

function exponentText({ exponent, uncertainty }: LearnedExponent): string {
  const decimals = Math.min(3, decimalsOf(uncertainty));
  return `${formatNumber(exponent, decimals)} ± ${formatNumber(uncertainty, decimals)}`;
}

function sentence(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}
