/** A run of letters or of digits in a name, in capitals; `isGlued` where nothing stands between it and the run before. */
export type Run = { text: string; isNumber: boolean; isGlued: boolean };

const RUN = /[\p{L}\p{M}]+|\d+/gu;
/** Where a word begins inside letters: `hotIn`, `TIHot`. */
const WORD_START = /(?<=\p{Ll})(?=\p{Lu})|(?<=\p{Lu})(?=\p{Lu}\p{Ll})/u;
/** The d of a difference is no word of its own: dP, dT. */
const DIFFERENCE = /(?<!\p{L})d(?=[PT](?!\p{Ll}))/gu;
/** Runs of one name looked at; longer names are cut. */
const MOST_RUNS = 40;

/** A name taken apart: `U1_E101-TI.hotIn` is U, 1, E, 101, TI, HOT, IN. */
export function nameRuns(name: string): Run[] {
  const runs: Run[] = [];
  let end = 0;
  for (const found of name.normalize('NFC').replace(DIFFERENCE, 'D').matchAll(RUN)) {
    const text = found[0];
    const isNumber = /^\d/.test(text);
    const parts = isNumber ? [text.replace(/^0+(?=\d)/, '')] : text.split(WORD_START);
    for (const [place, part] of parts.entries()) {
      const isGlued = place > 0 || (found.index === end && found.index > 0);
      runs.push({ text: part.toUpperCase(), isNumber, isGlued });
    }
    end = found.index + text.length;
    if (runs.length >= MOST_RUNS) break;
  }
  return runs;
}
