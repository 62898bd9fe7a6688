import type { Random } from '@/lib/core/stats/random';

/** A stationary first-order random walk of standard deviation 1, correlated over `correlationMs`. */
export function makeWander(random: Random, stepMs: number, correlationMs: number): () => number {
  const kept = Math.exp(-stepMs / correlationMs);
  const fresh = Math.sqrt(1 - kept * kept);
  let value = random.normal();
  return () => {
    value = kept * value + fresh * random.normal();
    return value;
  };
}
