import { binomialInterval } from '@/lib/core/stats/binomial-interval';
import { median } from '@/lib/core/stats/quantile';
import type { Judgement } from './judge-unit';

/** What is reported of a group of projections. Errors are |day − truth| over the days left; shares are of 1. */
export type Summary = {
  count: number;
  /** Share for which the product says nothing, and for which its median lies beyond the horizon. */
  silent: number;
  undated: number;
  /** Share of truths within P10 to P90 with its 95 % interval, below P10 and above P90; of those it speaks of. */
  coverage: number;
  coverageLow: number;
  coverageHigh: number;
  below: number;
  above: number;
  medianError: number;
  /** What is left of it for one who knows the true growth, but of the level only what the daily figures say. */
  floor: number;
  lineMedianError: number;
  /** The product's median error over the line's. */
  ratio: number;
};

/** Summary of some projections; a median not within the horizon is an error without end, as is a line that falls. */
export function summarise(judgements: readonly Judgement[]): Summary {
  const spoken = judgements.filter(({ withinHorizon }) => withinHorizon !== null);
  const below = spoken.filter(
    ({ truthDay, p10Day }) => truthDay < (p10Day ?? Number.POSITIVE_INFINITY),
  ).length;
  const above = spoken.filter(
    ({ truthDay, p90Day }) => truthDay > (p90Day ?? Number.POSITIVE_INFINITY),
  ).length;
  const held = spoken.length - below - above;
  const { low, high } = binomialInterval(held, spoken.length);
  const medianError = median(
    spoken.map((each) => relativeError(each, each.p50Day ?? Number.POSITIVE_INFINITY)),
  );
  const lineMedianError = median(spoken.map((each) => relativeError(each, each.lineDay)));
  return {
    count: judgements.length,
    silent: 1 - spoken.length / judgements.length,
    undated: spoken.filter(({ p50Day }) => p50Day === null).length / spoken.length,
    coverage: held / spoken.length,
    coverageLow: low,
    coverageHigh: high,
    below: below / spoken.length,
    above: above / spoken.length,
    medianError,
    floor: median(spoken.map((each) => relativeError(each, each.seenDay))),
    lineMedianError,
    ratio: medianError / lineMedianError,
  };
}

function relativeError({ truthDay, today }: Judgement, day: number): number {
  return Number.isNaN(day)
    ? Number.POSITIVE_INFINITY
    : Math.abs(day - truthDay) / Math.max(1, truthDay - today);
}
