import { plainName } from './plain-name';

/** Names longer than this are not compared: the work grows with the square of the length. */
const MAX_COMPARED_LENGTH = 64;
/** Names compared at most, so that a message never costs more than reading the file. */
const MAX_CANDIDATES = 20_000;
/** Share of a name's letters that may differ for it to be suggested. */
const ALLOWED_SHARE = 0.4;

/** Suggestions of one file: after this many, messages go without. */
const MAX_SUGGESTIONS = 100;

/** What joins a fault to its remedy: the name most like the one written, as a question, where there is one. */
export type Suggest = (written: string, names: Iterable<string>) => string;

/** Looks for nearest names until a file has had its share: a file of another plant has a million unknown tags. */
export function makeSuggest(): Suggest {
  let made = 0;
  return (written, names) => (made++ < MAX_SUGGESTIONS ? didYouMean(written, names) : '; ');
}

function didYouMean(written: string, names: Iterable<string>): string {
  const nearest = nearestName(written, names);
  return nearest === null ? '; ' : `; did you mean "${nearest.slice(0, 60)}"? `;
}

/** The name most like the one written; null where none is like it. */
export function nearestName(written: string, names: Iterable<string>): string | null {
  const target = plainName(written);
  if (target.length > MAX_COMPARED_LENGTH) return null;
  let nearest: string | null = null;
  let least = Math.floor(Math.max(1, target.length * ALLOWED_SHARE)) + 1;
  let compared = 0;
  for (const name of names) {
    if (++compared > MAX_CANDIDATES) break;
    const candidate = plainName(name);
    if (Math.abs(candidate.length - target.length) >= least) continue;
    const distance = editDistance(target, candidate, least);
    if (distance >= least) continue;
    [nearest, least] = [name, distance];
  }
  return nearest;
}

/** Letters to add, drop, change or swap with the next to turn one name into the other, given up at `enough`. */
function editDistance(a: string, b: string, enough: number): number {
  let beforeAbove: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  let leastAbove = 0;
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const change = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = isSwapped ? beforeAbove[j - 2]! + 1 : change;
      row[j] = Math.min(change, swap, row[j - 1]! + 1, above[j]! + 1);
      least = Math.min(least, row[j]!);
    }
    // A swap reaches back over one row.
    if (Math.min(least, leastAbove + 1) >= enough) return enough;
    [beforeAbove, above, leastAbove] = [above, row, least];
  }
  return above[b.length]!;
}
