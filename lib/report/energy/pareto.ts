/** Share of the whole that the first few are said to make [-]: the usual one. */
const MOST_OF_IT = 0.8;

/** One of a sorted list: its place against the largest, and what it and all before it make of the whole [-]. */
export type ParetoRow<Item> = { item: Item; size: number; ofLargest: number; cumulative: number };

type Pareto<Item> = {
  /** Those that lose anything, the largest first. */
  rows: ParetoRow<Item>[];
  total: number;
  /** How many of the first make 80 % of the whole; 0 without any. */
  makeMost: number;
};

/** Sorts by size, the largest first; what is not above 0 is no loss and left out. */
export function pareto<Item>(
  items: readonly Item[],
  { sizeOf, nameOf }: { sizeOf: (item: Item) => number | null; nameOf: (item: Item) => string },
): Pareto<Item> {
  const sized = items
    .map((item) => ({ item, size: sizeOf(item) ?? 0 }))
    .filter(({ size }) => size > 0)
    .sort((a, b) => b.size - a.size || nameOf(a.item).localeCompare(nameOf(b.item), 'en', { numeric: true }));
  const total = sized.reduce((sum, { size }) => sum + size, 0);
  let running = 0;
  const rows = sized.map(({ item, size }) => {
    running += size;
    return { item, size, ofLargest: size / sized[0]!.size, cumulative: running / total };
  });
  // A hair below, so that shares that add to exactly 80 % do not depend on the last bit.
  const makeMost = rows.findIndex(({ cumulative }) => cumulative >= MOST_OF_IT - 1e-12) + 1;
  return { rows, total, makeMost };
}
