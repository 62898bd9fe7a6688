import type { Side } from '@/lib/core/exchange/exchanger';
import type { Run } from './name-runs';
import {
  type End,
  type Meaning,
  type Measured,
  NEUTRAL_WORDS,
  OTHER_INSTRUMENTS,
  SENSOR_WORDS,
} from './sensor-words';

/** One feature as a text tells it: what, how surely, by which word; weight 0 where it says two things at once. */
export type Told<What> = { what: What; weight: number; by: string };

export type NameMeaning = {
  measured: Told<Measured> | null;
  side: Told<Side> | null;
  end: Told<End> | null;
  /** The word by which it is none of our sensors; null where nothing says so. */
  other: string | null;
};

/** Two words weigh against each other where they are as sure as this. */
const CONFLICT_WITHIN = 0.4;
/** Parts a word written together is taken apart into at most, and their least length. */
const MOST_PARTS = 4;
const LEAST_PART = 2;

/** What the words of a text say. In a description, letters that are also words of the language say nothing. */
export function nameMeaning(runs: readonly Run[], isDescription: boolean): NameMeaning {
  const meaning: NameMeaning = { measured: null, side: null, end: null, other: null };
  const words = runs.flatMap((run, place) => wordsOf(run, runs, place));
  for (const [place, { word, found }] of words.entries()) {
    if (found.isOther) meaning.other ??= word;
    if (isDescription && word.length === 1) continue;
    meaning.measured = told(meaning.measured, found.measured, word);
    meaning.side = told(meaning.side, found.side, word);
    meaning.end = told(meaning.end, found.end, word);
    if (isControllerOutput(words, place)) meaning.other ??= word;
  }
  const pressure = pressureWords(runs);
  if (pressure === 'drop') meaning.measured = told(null, ['pressure-drop', 3.5], 'PRESSURE DROP');
  if (pressure === 'alone' && meaning.measured?.what !== 'pressure-drop') meaning.other ??= 'PRESSURE';
  if (!isDescription) meaning.other ??= otherInstrument(runs);
  return meaning;
}

type Word = { word: string; found: Meaning };

function wordsOf(run: Run, runs: readonly Run[], place: number): Word[] {
  if (run.isNumber) return [];
  // degC, °F: a unit of measure written out.
  if (runs[place - 1]?.text === 'DEG') return [];
  const found = SENSOR_WORDS.get(run.text);
  if (found !== undefined) return [{ word: run.text, found }];
  return (partsOf(run.text, MOST_PARTS) ?? []).flatMap((word) => {
    const part = SENSOR_WORDS.get(word);
    return part === undefined ? [] : [{ word, found: part }];
  });
}

/** Words written together, HOTOUT or TIHOTIN, as words that are all known; null where they are not. */
function partsOf(text: string, most: number): string[] | null {
  if (text === '') return [];
  if (most === 0) return null;
  for (let length = text.length; length >= LEAST_PART; length--) {
    const first = text.slice(0, length);
    if (!SENSOR_WORDS.has(first) && !NEUTRAL_WORDS.has(first)) continue;
    const rest = partsOf(text.slice(length), most - 1);
    if (rest !== null) return [first, ...rest];
  }
  return null;
}

function told<What>(
  known: Told<What> | null,
  found: [What, number] | undefined,
  by: string,
): Told<What> | null {
  if (found === undefined) return known;
  const [what, weight] = found;
  if (known === null) return { what, weight, by };
  if (known.what === what) return weight > known.weight ? { what, weight, by } : known;
  if (Math.abs(weight - known.weight) <= CONFLICT_WITHIN)
    return { ...known, weight: 0, by: `${known.by} and ${by}` };
  return weight > known.weight ? { what, weight, by } : known;
}

/** TIC-101.OUT is what a controller gives, not an outlet. */
function isControllerOutput(words: Word[], place: number): boolean {
  const isLast = place === words.length - 1 && words[place]!.word === 'OUT';
  return isLast && place > 0 && /^(T|F|PD|DP)[RI]C$/.test(words[place - 1]!.word);
}

const DROP_WORDS = /^(DROP|DIFF|DIFFERENTIAL|DIFFERENCE|LOSS|DELTA)$/;

function pressureWords(runs: readonly Run[]): 'drop' | 'alone' | null {
  const names = runs.map(({ text }) => text);
  const isPressure = names.some((name) => /^(PRESSURE|PRESS|DRUCK)$/.test(name));
  const isDelta = names.some((name, i) => name === 'DELTA' && names[i + 1] === 'P');
  if (!isPressure) return isDelta ? 'drop' : null;
  return names.some((name) => DROP_WORDS.test(name)) ? 'drop' : 'alone';
}

function otherInstrument(runs: readonly Run[]): string | null {
  for (const [i, run] of runs.entries()) {
    if (!OTHER_INSTRUMENTS.has(run.text)) continue;
    // PT100 is a thermometer.
    if (run.text === 'PT' && /^10{2,3}$/.test(runs[i + 1]?.text ?? '')) continue;
    if (runs[i - 1]?.isNumber === true || runs[i + 1]?.isNumber === true) return run.text;
  }
  return null;
}
