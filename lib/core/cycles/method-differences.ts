import { median } from '../stats/quantile';
import { mannWhitney } from './mann-whitney';

/** Units cleaned by each of two methods from which on a difference can be told from chance [-] (own choice). */
const FEWEST_UNITS = 5;
/** Probability of naming any difference where there is none [-]. */
const SIGNIFICANCE = 0.05;

/** Two methods compared by the share of fouling recovered. */
export type MethodDifference = {
  methods: [string, string];
  /** `supported`: larger than chance explains; `not-supported`; `too-few`: fewer than five units cleaned by one of them. */
  state: 'supported' | 'not-supported' | 'too-few';
  /** Median share of the first minus that of the second [-], over units; null where one has none. */
  difference: number | null;
  /** Two-sided probability of such a difference by chance, raised for the count of comparisons (Holm); null with too few. */
  probability: number | null;
};

/**
 * Which cleaning methods differ in the share recovered: rank tests of each two, each unit counting once per method, with the
 * probabilities raised by Holm's rule so that all together name a difference that is not there in at most 5 of 100 fleets.
 * A unit cleaned by both methods counts in both samples, which makes the test the more careful.
 *
 * @param methods name and one share per unit [-]
 * @returns one entry for each two methods, in their order
 * @range  any count
 * @source Mann & Whitney, Ann. Math. Stat. 18 (1947) 50-60; Holm, A simple sequentially rejective multiple test procedure,
 *   Scand. J. Statist. 6 (1979) 65-70
 * @check  tests/core/cycles/compare-methods.test.ts
 */
export function methodDifferences(
  methods: readonly { method: string; sharesByUnit: number[] }[],
): MethodDifference[] {
  const pairs = methods.flatMap((first, k) => methods.slice(k + 1).map((second) => ({ first, second })));
  const raw = pairs.map(({ first, second }) =>
    Math.min(first.sharesByUnit.length, second.sharesByUnit.length) < FEWEST_UNITS
      ? null
      : mannWhitney(first.sharesByUnit, second.sharesByUnit).probability,
  );
  const raised = holm(raw);
  return pairs.map(({ first, second }, k) => {
    const probability = raised[k]!;
    const isEmpty = first.sharesByUnit.length === 0 || second.sharesByUnit.length === 0;
    return {
      methods: [first.method, second.method],
      state: probability === null ? 'too-few' : probability < SIGNIFICANCE ? 'supported' : 'not-supported',
      difference: isEmpty ? null : median(first.sharesByUnit) - median(second.sharesByUnit),
      probability,
    };
  });
}

/** Probabilities raised for their number: the k-th smallest of m times m − k + 1, not falling, at most 1. */
function holm(raw: (number | null)[]): (number | null)[] {
  const order = raw
    .map((probability, index) => ({ probability, index }))
    .filter((entry): entry is { probability: number; index: number } => entry.probability !== null)
    .sort((a, b) => a.probability - b.probability);
  const raised = raw.map((): number | null => null);
  let largest = 0;
  order.forEach(({ probability, index }, k) => {
    largest = Math.max(largest, Math.min(1, (order.length - k) * probability));
    raised[index] = largest;
  });
  return raised;
}
