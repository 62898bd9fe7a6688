import { isTagLike, unitLikeness } from '../header-words';
import type { Run } from './name-runs';
import { nameRuns } from './name-runs';
import { SENSOR_WORDS } from './sensor-words';

/** A name without the unit of measure at its end: a C or an h of the unit is no word of the name. */
export type NameAndUnit = { name: string; unit: string | null };

/** Units are short, and asking for one is slow. */
const LONGEST_UNIT = 24;
/** Answers that are remembered; names ever new must not fill the memory. */
const MOST_REMEMBERED = 5000;

/** `E-101 outlet [C]`, `E-101 outlet (°C)`, `E-101 flow m3/h`, `E-101 temp deg C` taken apart. */
export function nameAndUnit(written: string): NameAndUnit {
  const name = written.trim();
  return inBrackets(name) ?? asLastWord(name) ?? { name: written, unit: null };
}

/** Units have brackets of their own, `[[gal_us]/min]`, so the outermost pair that holds a unit counts. */
function inBrackets(name: string): NameAndUnit | null {
  const [open, close] = name.endsWith(']') ? ['[', ']'] : ['(', ')'];
  if (!name.endsWith(close!)) return null;
  const from = name.length - LONGEST_UNIT - 2;
  for (let at = name.indexOf(open!, Math.max(0, from)); at >= 0; at = name.indexOf(open!, at + 1)) {
    const unit = name.slice(at + 1, -1).trim();
    const likeness = likenessOf(unit);
    const isUnit = likeness === 'sensor' || (likeness === 'other' && unit.length > 1);
    if (isUnit) return { name: name.slice(0, at).trim(), unit };
  }
  return null;
}

function asLastWord(name: string): NameAndUnit | null {
  const words = name.split(/\s/).filter((word) => word !== '');
  const last = words.at(-1) ?? '';
  if (words.length < 2 || last.length > LONGEST_UNIT) return null;
  const degree = words.length > 2 && /^(deg|°)$/i.test(words.at(-2)!) ? words.at(-2)! : '';
  const unit = degree + last;
  if (likenessOf(unit) !== 'sensor') return null;
  const rest = words.slice(0, degree === '' ? -1 : -2).join(' ');
  // A bare C, F or K is a unit only behind what is a temperature's: `hot F` is a flow.
  return unit.length > 1 || nameRuns(rest).some(isOfTemperature) ? { name: rest, unit } : null;
}

function isOfTemperature({ text }: Run): boolean {
  const found = SENSOR_WORDS.get(text);
  return found?.measured === undefined ? found?.end !== undefined : found.measured[0] === 'temperature';
}

type Likeness = ReturnType<typeof unitLikeness>;
const remembered = new Map<string, Likeness>();

/** As unitLikeness, without asking for what is a word of our sensors, a tag or a number. */
function likenessOf(text: string): Likeness {
  const isWord = text.length > 1 && SENSOR_WORDS.has(text.toUpperCase());
  if (isWord || isTagLike(text) || !/[\p{L}°%]/u.test(text)) return 'none';
  const known = remembered.get(text);
  if (known !== undefined) return known;
  const likeness = unitLikeness(text);
  if (remembered.size >= MOST_REMEMBERED) remembered.clear();
  remembered.set(text, likeness);
  return likeness;
}
