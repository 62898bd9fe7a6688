import { nameRuns, type Run } from './name-runs';

/** How surely a text names a unit (logarithm of odds) and in which words that is said. */
export type TagFound = { tag: string; weight: number; how: string; isWeak: boolean };

/** `foreign` is a tag of the same kind that nobody has registered: the name speaks of something else. */
export type TagsFound = {
  tags: TagFound[];
  foreign: string | null;
  /** The runs that are no part of a tag: a unit PH-121 says nothing of acidity. */
  rest: readonly Run[];
};

/** The tag itself stands in the name. */
const WHOLE_TAG = 6;
/** Turned round, 101-E for E-101. */
const TURNED_TAG = 5;
/** A further number follows, E-101-2: perhaps another shell, perhaps another exchanger. */
const NUMBERED_TAG = 2.5;
/** Only the instrument's number agrees, TI-1012 for E-101: a habit of many plants, no rule. */
const LOOP_NUMBER = 2.5;
const LEAST_LOOP_DIGITS = 2;
/** Digits that a number must have for a longer one to begin with it not by chance. */
const LEAST_STEM_DIGITS = 3;
/** Digits by which a loop number may be longer than the unit's. */
const LOOP_SUFFIX = 2;
/** A letter glued to the number names a sister: E101B is not E-101. */
const SISTER = /^[A-E]$/;

type Known = { tag: string; isTurned: boolean };

/** Looks for registered tags in names, in any spelling of them. */
export class TagFinder {
  readonly #byRuns = new Map<string, Known[]>();
  readonly #byNumber = new Map<string, string[]>();
  readonly #prefixes = new Set<string>();
  #longest = 0;

  constructor(tags: readonly string[]) {
    for (const tag of tags) {
      const runs = nameRuns(tag);
      if (runs.length === 0) continue;
      this.#longest = Math.max(this.#longest, runs.length);
      add(this.#byRuns, keyOf(runs), { tag, isTurned: false });
      if (runs.length === 2 && runs[0]!.isNumber !== runs[1]!.isNumber)
        add(this.#byRuns, keyOf([...runs].reverse()), { tag, isTurned: true });
      const number = longestNumber(runs);
      if (number.length >= LEAST_LOOP_DIGITS) add(this.#byNumber, number, tag);
      if (runs.length >= 2 && !runs[0]!.isNumber && runs[1]!.isNumber) this.#prefixes.add(runs[0]!.text);
    }
  }

  find(runs: readonly Run[]): TagsFound {
    const covered = new Set<number>();
    const tags = this.#wholeTags(runs, covered);
    if (tags.length > 0) return { tags, foreign: null, rest: runs.filter((_, i) => !covered.has(i)) };
    const foreign = this.#foreignTag(runs);
    return { tags: foreign === null ? this.#byLoop(runs) : [], foreign, rest: runs };
  }

  /** Where the runs of a tag stand in a name; the longest one counts, E-101A before E-101. */
  #wholeTags(runs: readonly Run[], covered: Set<number>): TagFound[] {
    const found = new Map<string, TagFound>();
    for (let from = 0; from < runs.length; from++) {
      for (let length = Math.min(this.#longest, runs.length - from); length > 0; length--) {
        const known = this.#byRuns.get(keyOf(runs.slice(from, from + length)));
        if (known === undefined) continue;
        for (const { tag, isTurned } of known) {
          const weight = weightAt(runs, { from, length, isTurned }) - (known.length - 1);
          const how = `the name holds ${tag}`;
          if ((found.get(tag)?.weight ?? 0) < weight)
            found.set(tag, { tag, weight, how, isWeak: weight < TURNED_TAG - 1 });
        }
        for (let i = from; i < from + length; i++) covered.add(i);
        from += length - 1;
        break;
      }
    }
    return [...found.values()].filter(({ weight }) => weight > 0);
  }

  /** A tag built like the registered ones, but none of them. */
  #foreignTag(runs: readonly Run[]): string | null {
    for (let i = 0; i + 1 < runs.length; i++) {
      const [letters, number] = [runs[i]!, runs[i + 1]!];
      if (letters.isNumber || !number.isNumber || !this.#prefixes.has(letters.text)) continue;
      return `${letters.text}-${number.text}${sisterAt(runs, i + 2)}`;
    }
    return null;
  }

  #byLoop(runs: readonly Run[]): TagFound[] {
    const found = new Map<string, TagFound>();
    for (const [i, run] of runs.entries()) {
      if (!run.isNumber || i === 0 || runs[i - 1]!.isNumber) continue;
      for (let cut = 0; cut <= LOOP_SUFFIX; cut++) {
        const stem = run.text.slice(0, run.text.length - cut);
        const least = cut === 0 ? LEAST_LOOP_DIGITS : LEAST_STEM_DIGITS;
        for (const tag of (stem.length >= least && this.#byNumber.get(stem)) || []) {
          const how = `its number ${run.text} begins as that of ${tag}`;
          found.set(tag, { tag, weight: LOOP_NUMBER, how, isWeak: true });
        }
      }
    }
    return [...found.values()];
  }
}

/** The number people call a unit by: of 10-E-205 that is 205. */
function longestNumber(runs: readonly Run[]): string {
  const numbers = runs.flatMap(({ text, isNumber }) => (isNumber ? [text] : []));
  return numbers.reduce((longest, number) => (number.length >= longest.length ? number : longest), '');
}

function weightAt(
  runs: readonly Run[],
  { from, length, isTurned }: { from: number; length: number; isTurned: boolean },
): number {
  const next = runs[from + length];
  if (sisterAt(runs, from + length) !== '') return 0;
  if (next?.isNumber === true && next.text.length <= 2) return NUMBERED_TAG;
  const isBare = length === 1;
  return (isTurned ? TURNED_TAG : WHOLE_TAG) - (isBare ? 3 : 0);
}

function sisterAt(runs: readonly Run[], place: number): string {
  const next = runs[place];
  return next?.isGlued === true && SISTER.test(next.text) ? next.text : '';
}

function keyOf(runs: readonly Run[]): string {
  return runs.map(({ text }) => text).join('\u001f');
}

function add<Value>(map: Map<string, Value[]>, key: string, value: Value): void {
  const known = map.get(key);
  if (known === undefined) map.set(key, [value]);
  else known.push(value);
}
