import type { LearnedFactors, LearningRefusal } from '@/lib/core/clean/learn-factors';
import { FEWEST_LEARNING_READINGS } from '@/lib/core/clean/learn-scale';
import {
  type FilmDoubt,
  GREATEST_CONDITION,
  GREATEST_RELATIVE_ERROR,
  LEAST_GAIN,
  type LearnedFilms,
} from '@/lib/core/clean/learn-two-films';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { REASON_WORDS } from '@/lib/report/format/words';

/** Why a method gives no clean reference, and what would help. */
export function refusalInWords(refusal: LearningRefusal): string {
  switch (refusal.kind) {
    case 'no-test':
      return 'The datasheet states no clean test: enter its readings there first.';
    case 'too-few-readings':
      return `Fewer than ${FEWEST_LEARNING_READINGS} accepted readings lie in this period: choose a longer one, or another.`;
    case 'films-not-told-apart':
      return 'The flows varied too little to tell the two films apart.';
    case 'test-left-out':
      return `The clean test cannot be evaluated: ${refusal.reasons.map((reason) => REASON_WORDS[reason]).join(', ')}.`;
  }
}

/** What the identifiability test found wanting, one sentence each; empty where two films can be told apart. */
export function doubtsInWords({ films }: LearnedFactors, system: UnitSystem = 'si'): string[] {
  return films === null ? [] : films.doubts.map((doubt) => doubtInWords(doubt, films, system));
}

function doubtInWords(doubt: FilmDoubt, films: LearnedFilms, system: UnitSystem): string {
  switch (doubt) {
    case 'too-few':
      return `It takes ${FEWEST_LEARNING_READINGS} accepted readings; there are ${films.readings}.`;
    case 'negative':
      return 'One film comes out at nothing, which no film is.';
    case 'collinear':
      return `The two films change together: condition index ${indexInWords(films.condition)}, where it takes less than ${GREATEST_CONDITION}. Needed is a clean period in which each flow changes on its own, by a third or so; ${flowsInWords(films, system)}.`;
    case 'uncertain':
      return `A factor is uncertain by more than ${formatNumber(GREATEST_RELATIVE_ERROR * 100, 0)} % of itself: it takes more readings, or flows that vary more.`;
    case 'no-better':
      return `One factor on the whole resistance fits as well: two gain ${formatNumber(films.gain, 1)} in Akaike’s criterion, where it takes ${LEAST_GAIN}.`;
  }
}

/** "the hot flow ran from 17 to 23 kg/s, the cold one from 20 to 31 kg/s". */
export function flowsInWords({ hotFlow, coldFlow }: LearnedFilms, system: UnitSystem): string {
  const text = (flow: number) => formatFigureText(flow, 'massFlow', system);
  const span = ([low, high]: readonly [number, number]) => `from ${text(low)} to ${text(high)}`;
  return `the hot flow ran ${span(hotFlow)}, the cold one ${span(coldFlow)} (5 % to 95 % of the readings)`;
}

/** A condition index to a tenth; without end where nothing tells the films apart. */
export function indexInWords(condition: number): string {
  return Number.isFinite(condition) ? formatNumber(condition, condition < 100 ? 1 : 0) : 'without end';
}
