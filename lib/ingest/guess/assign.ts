/** One possible pair of a column and a place it could take, with what it is worth (> 0). */
export type Pair = { row: number; place: number; worth: number };

/**
 * The pairs with the greatest total worth in which no column and no place stands twice; a column may stay without a place.
 * Columns that share no possible place are solved apart: a plant of two hundred units is two hundred small problems.
 *
 * @source Kuhn 1955, in the shortest-path form of Jonker and Volgenant 1987
 */
export function assign(pairs: readonly Pair[]): Pair[] {
  return components(pairs).flatMap(solve);
}

function components(pairs: readonly Pair[]): Pair[][] {
  const parent = new Map<string, string>();
  const root = (key: string): string => {
    let at = key;
    while ((parent.get(at) ?? at) !== at) at = parent.get(at)!;
    parent.set(key, at);
    return at;
  };
  for (const { row, place } of pairs) parent.set(root(`row ${row}`), root(`place ${place}`));
  const groups = new Map<string, Pair[]>();
  for (const pair of pairs) {
    const key = root(`row ${pair.row}`);
    groups.set(key, [...(groups.get(key) ?? []), pair]);
  }
  return [...groups.values()];
}

/** One component: every row gets a column of the table, its own empty one at worst, at the least cost. */
function solve(pairs: readonly Pair[]): Pair[] {
  const rows = [...new Set(pairs.map(({ row }) => row))];
  const places = [...new Set(pairs.map(({ place }) => place))];
  const byCell = new Map(pairs.map((pair) => [`${pair.row} ${pair.place}`, pair]));
  // Behind the places stands one empty place per row, which costs nothing.
  const width = places.length + rows.length;
  const cost = (r: number, c: number) => {
    if (c >= places.length) return c - places.length === r ? 0 : Number.POSITIVE_INFINITY;
    return -(byCell.get(`${rows[r]} ${places[c]}`)?.worth ?? Number.NEGATIVE_INFINITY);
  };
  const rowOf = cheapestRows(rows.length, width, cost);
  return places.flatMap((place, c) => {
    const r = rowOf[c]!;
    const pair = r < 0 ? undefined : byCell.get(`${rows[r]} ${place}`);
    return pair === undefined ? [] : [pair];
  });
}

/** Which row each column of a table gets so that all rows have one and the sum of costs is least; −1 for none. */
function cheapestRows(
  height: number,
  width: number,
  cost: (row: number, column: number) => number,
): number[] {
  const rowPrice = new Float64Array(height);
  const columnPrice = new Float64Array(width);
  const rowOf = new Array<number>(width).fill(-1);
  for (let start = 0; start < height; start++) {
    const distance = new Float64Array(width).fill(Number.POSITIVE_INFINITY);
    const from = new Array<number>(width).fill(-1);
    const isDone = new Array<boolean>(width).fill(false);
    let row = start;
    let column = -1;
    let reached = 0;
    do {
      let next = -1;
      for (let c = 0; c < width; c++) {
        if (isDone[c]) continue;
        const through = reached + cost(row, c) - rowPrice[row]! - columnPrice[c]!;
        if (through < distance[c]!) {
          distance[c] = through;
          from[c] = column;
        }
        if (next < 0 || distance[c]! < distance[next]!) next = c;
      }
      column = next;
      reached = distance[column]!;
      isDone[column] = true;
      row = rowOf[column]!;
    } while (row >= 0);
    for (let c = 0; c < width; c++) {
      if (!isDone[c]) continue;
      const change = reached - distance[c]!;
      columnPrice[c] = columnPrice[c]! - change;
      if (rowOf[c]! >= 0) rowPrice[rowOf[c]!] = rowPrice[rowOf[c]!]! + change;
    }
    rowPrice[start] = rowPrice[start]! + reached;
    while (column >= 0) {
      const before = from[column]!;
      rowOf[column] = before < 0 ? start : rowOf[before]!;
      column = before;
    }
  }
  return rowOf;
}
