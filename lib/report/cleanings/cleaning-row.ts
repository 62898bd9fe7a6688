import type { CleaningEffect } from '@/lib/core/cycles/cleaning-result';
import { figureText, formatFigure, formatFigureText, formatMoney, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { parseUnitAddress, unitHref } from '@/lib/report/unit/unit-address';
import { type DoneCleaning, netOf } from './done-cleaning';

/** One cleaning as a row. */
export type CleaningRow = {
  key: string;
  day: string;
  tag: string;
  /** The unit from before the cleaning to after it. */
  href: string;
  service: string;
  method: string;
  /** Clean, fouling before and after, and the limit, as places from 0 to 1; null without a result or a limit. */
  fall: { before: number; after: number; limit: number } | null;
  before: string;
  after: string;
  /** Share recovered, or why there is none. */
  recovered: string;
  hasResult: boolean;
  energy: string;
  /** Days counted, and whether the fouling is back. */
  until: string;
  worth: string;
  cost: string;
  net: string;
  /** Whether it has brought back what it cost; null where that cannot be told. */
  isPaid: boolean | null;
};

const DAYS_BESIDE = 45;
/** Share of the allowance at the right end of the small picture [-]. */
const HIGHEST_SHARE = 1.25;

/** Why a cleaning has no result. */
const WITHOUT_RESULT: Record<NonNullable<DoneCleaning['reason']>, string> = {
  'no-figures-between': 'no figures between two cleanings',
  'too-few-before': 'too few figures before',
  'too-few-after': 'too few figures since',
  'outside-record': 'outside the record of readings',
};

export function cleaningRow(
  cleaning: DoneCleaning,
  { system, units }: { system: UnitSystem; units: string | null },
): CleaningRow {
  const { tag, day, service, method, effect, reason, worth, cost, currency, hasPrice } = cleaning;
  const address = { ...parseUnitAddress(tag, {}), units };
  const net = netOf(cleaning);
  return {
    key: `${tag} ${cleaning.at}`,
    day: formatDay(day),
    tag,
    href: unitHref(
      address,
      { period: 'custom', fromDay: day - DAYS_BESIDE, toDay: day + DAYS_BESIDE },
      'charts',
    ),
    service,
    method: method ?? 'not stated',
    fall: effect === null ? null : fallOf(effect, cleaning.allowance),
    ...levels(effect, system),
    recovered: effect === null ? WITHOUT_RESULT[reason ?? 'outside-record'] : recoveredInWords(effect),
    hasResult: effect !== null,
    energy: formatFigureText(effect?.energySoFar, 'energy', system),
    until: effect === null ? '' : untilInWords(effect),
    worth: worth === null && !hasPrice && effect !== null ? 'no price' : formatMoney(worth, currency),
    cost: cost === null ? MISSING : `${formatMoney(cost, currency)}${cleaning.isUsualCost ? ' (usual)' : ''}`,
    net: net === null ? MISSING : `${net > 0 ? '+' : ''}${formatMoney(net, currency)}`,
    isPaid: net === null ? null : net >= 0,
  };
}

/** All on one scale, from clean to a little above the limit of each unit. */
function fallOf({ before, after }: CleaningEffect, allowance: number | null): CleaningRow['fall'] {
  if (allowance === null || !(allowance > 0)) return null;
  const place = (value: number) => Math.min(1, Math.max(0, value / allowance / HIGHEST_SHARE));
  return { before: place(before), after: place(after), limit: place(allowance) };
}

function levels(effect: CleaningEffect | null, system: UnitSystem): Pick<CleaningRow, 'before' | 'after'> {
  if (effect === null) return { before: MISSING, after: MISSING };
  const level = (value: number, uncertainty: number) =>
    figureText({ ...formatFigure(value, 'foulingResistance', system, { uncertainty }), unit: '' });
  return {
    before: level(effect.before, effect.beforeUncertainty),
    after: level(effect.after, effect.afterUncertainty),
  };
}

function recoveredInWords({ shareRecovered, shareRecoveredUncertainty, isPartial }: CleaningEffect): string {
  if (shareRecovered === null) return 'was hardly fouled';
  const figure = formatFigureText(shareRecovered, 'fraction', 'si', {
    uncertainty: shareRecoveredUncertainty,
  });
  return isPartial ? `${figure}, partial` : figure;
}

function untilInWords({ daysCounted, daysElapsed, daysUntilBack }: CleaningEffect): string {
  const counted =
    daysCounted === daysElapsed ? countOf(daysElapsed, 'day') : `${daysCounted} of ${daysElapsed} days`;
  return daysUntilBack === null ? `in ${counted}` : `in ${counted}; fouled again by day ${daysUntilBack}`;
}
