/** Rows in order of time: the day behind each, −1 for an empty one that breaks the line. */
type DayRows = { time: number[]; source: number[] };

/** Where rows are thinned out [ms], into how many columns, and the instants at which a line must stay broken. */
type Thinning = { from: number; to: number; buckets: number; cuts: readonly number[] };

/**
 * Keeps of each column of pixels the days on which a drawn figure is least or greatest there: a line through them looks the
 * same, and each is still a whole day with all of its figures. A break stays at every cut and wherever it can be seen.
 *
 * @param drawn columns of daily figures that are drawn, by row of the daily figures
 */
export function thinDays(
  { time, source }: DayRows,
  drawn: readonly ArrayLike<number>[],
  { from, to, buckets, cuts }: Thinning,
): DayRows {
  const width = (to - from) / buckets;
  if (time.length <= 2 * buckets) return { time, source };
  const kept = new Set<number>();
  const isCut = (before: number, after: number) => cuts.some((cut) => cut > before && cut <= after);
  for (let start = 0; start < time.length; ) {
    const bucket = Math.floor((time[start]! - from) / width);
    let end = start + 1;
    while (end < time.length && Math.floor((time[end]! - from) / width) === bucket) end++;
    for (const column of drawn) keepExtremes(kept, column, { source, start, end });
    start = end;
  }
  source.forEach((row, i) => {
    const [before, after] = [time[i - 1], time[i + 1]];
    if (row >= 0 || before === undefined || after === undefined) return;
    if (after - before > width || isCut(before, after)) kept.add(i);
  });
  const rows = [...kept].sort((a, b) => a - b);
  return { time: rows.map((i) => time[i]!), source: rows.map((i) => source[i]!) };
}

function keepExtremes(
  kept: Set<number>,
  column: ArrayLike<number>,
  { source, start, end }: { source: number[]; start: number; end: number },
): void {
  let [least, greatest] = [-1, -1];
  for (let i = start; i < end; i++) {
    const value = source[i]! < 0 ? Number.NaN : column[source[i]!]!;
    if (Number.isNaN(value)) continue;
    if (least < 0 || value < column[source[least]!]!) least = i;
    if (greatest < 0 || value > column[source[greatest]!]!) greatest = i;
  }
  if (least >= 0) kept.add(least).add(greatest);
}
