import { CHI_SQUARED } from '@/lib/core/exchange/reconcile';
import { chiSquared1Survival } from '@/lib/core/stats/chi-squared';
import { formatNumber } from '@/lib/report/format/figure';
import type { WorkedState } from './worked-state';

/** An imbalance that the sensors' uncertainty alone would reach less often than this is one it does not explain [-]. */
const EXPLAINED_ABOVE = 0.05;
/** Below this the probability is not written out [-]. */
const LEAST_WRITTEN = 0.001;

/** The χ² test of a reading's heat balance in words; null where no balance is checked. */
export function balanceTestInWords({ figure, statistics }: WorkedState): string | null {
  const chiSquared = statistics[CHI_SQUARED]!;
  if (!Number.isFinite(figure('balance')) || !Number.isFinite(chiSquared)) return null;
  const probability = chiSquared1Survival(chiSquared);
  const share =
    probability < LEAST_WRITTEN
      ? `less than ${formatNumber(LEAST_WRITTEN * 100, 1)} %`
      : `${formatNumber(probability * 100, probability < 0.1 ? 1 : 0)} %`;
  const test = `χ² = ${formatNumber(chiSquared, 2)} with one degree of freedom: the sensors’ uncertainty alone gives this imbalance or a larger one in ${share} of readings`;
  return probability >= EXPLAINED_ABOVE
    ? `${test}, so it explains the imbalance.`
    : `${test}, so it does not explain the imbalance. One balance cannot tell which of six sensors is wrong.`;
}
