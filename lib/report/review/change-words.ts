import type { UnitStatement } from '@/lib/contract/review';
import { formatFigureText } from '../format/figure';
import { formatDay } from '../format/time';
import type { UnitSystem } from '../format/unit-system';
import { countOf, LIMIT_WORDS } from '../format/words';
import type { Change } from './change';
import { cleaningWords, fallWords } from './cleaning-words';
import { dataWords } from './data-words';
import { cleanByText, usedText } from './statement-words';
import type { UnitFacts } from './unit-facts';

/** What changed, with its figures, and what to do about it. */
export type ChangeWords = { text: string; advice: string };

export function changeWords(change: Change, facts: UnitFacts, system: UnitSystem): ChangeWords {
  switch (change.kind) {
    case 'over-limit':
      return overLimit(change, facts, system);
    case 'near-limit':
      return nearLimit(facts, system);
    case 'below-limit':
      return belowLimit(facts, system);
    case 'clean-by-sooner':
    case 'clean-by-later':
      return moved(change, facts);
    case 'cleaned':
      return cleaningWords(change, facts, system);
    case 'probable-cleaning':
      return fallWords(change, facts, system);
    default:
      return dataWords(change, facts);
  }
}

function overLimit({ day }: Change, facts: UnitFacts, system: UnitSystem): ChangeWords {
  const since = day === null ? '' : ` since ${formatDay(day)}`;
  const { lostDuty } = facts.now;
  const lost =
    lostDuty === null ? '' : `; it transfers ${formatFigureText(lostDuty, 'power', system)} less than clean`;
  return {
    text: `Over its limit${byLimit(facts.now)}${since}: ${usedThenAndNow(facts, system)}${lost}.`,
    advice: 'Decide when it is cleaned: each week over the limit costs duty.',
  };
}

function nearLimit(facts: UnitFacts, system: UnitSystem): ChangeWords {
  const { now } = facts;
  // A P10 that has passed asks for no later day than the next one that can be had.
  const until =
    now.p10Day === null || now.p10Day <= facts.nowDay ? ' soon' : ` before ${formatDay(now.p10Day)} (P10)`;
  return {
    text: `Near its limit${byLimit(now)}: ${usedThenAndNow(facts, system)}; projected clean-by ${cleanByText(now)}.`,
    advice: `Find a slot for its cleaning${until}.`,
  };
}

function belowLimit(facts: UnitFacts, system: UnitSystem): ChangeWords {
  const was = facts.before.state === 'over-limit' ? 'over' : 'near';
  const state = facts.now.state === 'near-limit' ? ', though still near it' : '';
  return {
    text: `No longer ${was} its limit${state}: ${usedThenAndNow(facts, system)}.`,
    advice: 'No cleaning is recorded: record one if it was cleaned, else see what else has changed.',
  };
}

function moved({ kind }: Change, facts: UnitFacts): ChangeWords {
  const { now, before, beforeDay } = facts;
  const way = kind === 'clean-by-sooner' ? 'sooner' : 'later';
  const limit =
    now.limit === before.limit || now.limit === null || before.limit === null
      ? ''
      : `; now judged by ${LIMIT_WORDS[now.limit]}, then by ${LIMIT_WORDS[before.limit]}`;
  return {
    text: `Projected clean-by ${distance(before, now, way)}, by more than its uncertainty: ${cleanByText(now)}; on ${shortDay(beforeDay)} ${cleanByText(before)}${limit}.`,
    advice:
      way === 'sooner'
        ? 'Check that its planned cleaning still comes in time, and what makes it foul faster.'
        : 'A cleaning planned for it may wait.',
  };
}

function distance(before: UnitStatement, now: UnitStatement, way: 'sooner' | 'later'): string {
  if (before.p50Day === null) return 'came within the horizon';
  if (now.p50Day === null) return 'went beyond the horizon';
  return `moved ${countOf(Math.abs(now.p50Day - before.p50Day), 'day')} ${way}`;
}

function usedThenAndNow({ now, before, beforeDay }: UnitFacts, system: UnitSystem): string {
  const used = before.allowanceUsed === null ? 'not known' : usedText(before, system);
  return `${usedText(now, system)} of the allowance used, ${used} on ${shortDay(beforeDay)}`;
}

function byLimit({ limit }: UnitStatement): string {
  return limit === null ? '' : ` (${LIMIT_WORDS[limit]})`;
}

const shortDay = (day: number) => formatDay(day, { year: false });
