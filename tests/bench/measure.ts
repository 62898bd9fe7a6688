import { execFileSync } from 'node:child_process';

/** One line of a bench: what we need against what a peer needs, in the same run. */
export type BenchRow = {
  /** What is measured, in words, with its size. */
  what: string;
  /** Median over the runs. */
  ours: number;
  /** The peer's median; null where a figure stands for itself. */
  peer: number | null;
  /** What the peer is, such as "NumPy 2.4, same formulas". */
  peerName: string | null;
  /** Unit of `ours` and `peer`, such as "ms" or "rows/s". */
  unit: string;
  /** ours / peer; null without a peer. */
  ratio: number | null;
  /** What is asked of the ratio, or of `ours` without a peer; null where nothing is. */
  limit: { most: number } | { least: number } | null;
  /** Largest resident memory of our process meanwhile [MiB]; null where it says nothing. */
  memory: number | null;
};

/** One piece of `npm run bench`: prepares, measures ours and its peer in turn, cleans up after itself. */
export type BenchPiece = {
  name: string;
  /** In one line, for the list of pieces. */
  about: string;
  run(options: BenchOptions): Promise<BenchRow[]>;
};

export type BenchOptions = {
  /** Runs of each, of which the median is taken. */
  runs: number;
  /** Scale of the data: 1 is what the figures in FIGURES.md were made with. */
  scale: number;
  /** One line of progress. */
  say(line: string): void;
};

/** The middle one of some figures. */
export function median(figures: readonly number[]): number {
  const sorted = [...figures].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** A figure below which a share of all lies (nearest rank). */
export function percentile(figures: readonly number[], share: number): number {
  const sorted = [...figures].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)]!;
}

/** How long something takes [ms]. */
export async function timed(act: () => unknown): Promise<number> {
  const began = performance.now();
  await act();
  return performance.now() - began;
}

/** Resident memory of this process now [MiB]. */
export function residentMemory(): number {
  return process.memoryUsage().rss / 2 ** 20;
}

/** Whether a program is there, so that a bench can say that its peer is missing. */
export function hasProgram(name: string, args: readonly string[] = ['--version']): boolean {
  try {
    execFileSync(name, args, { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/**
 * The exponent with which a time grows with a size: slope of the straight line through their logarithms.
 *
 * @param points [size, time] each, at least two sizes
 */
export function growthExponent(points: readonly (readonly [size: number, time: number])[]): number {
  const logs = points.map(([size, time]) => [Math.log(size), Math.log(time)] as const);
  const mean = (index: 0 | 1) => logs.reduce((sum, point) => sum + point[index], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  const above = logs.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0);
  const below = logs.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
  return above / below;
}
