import type { Band, Growth } from './growth';
import { evaluateAlong, projectionOf } from './mixture';
import { mixtureQuantiles } from './normal-mixture';

/** Shares below the lines of a band [-]: P10, P50 and P90. */
const PROBABILITIES = [0.1, 0.5, 0.9];

/**
 * Quantiles of the smooth fouling at given ages, from the same distribution as `projectCrossing`: the P90 line meets
 * the limit at the crossing's P10, and the other way round.
 *
 * @param projection growth; ages [days], ≥ 0, any order
 * @returns P10, P50, P90 at each age [m²·K/W]; NaN without models
 * @range any
 * @source Meeker & Escobar, Statistical Methods for Reliability Data, 1998, sect. 13.5
 * @check tests/core/growth/project-band.test.ts
 */
export function projectBand({ growth, ages }: { growth: Growth; ages: ArrayLike<number> }): Band {
  const ageDays = new Float64Array(ages);
  const lines = PROBABILITIES.map(() => new Float64Array(ageDays.length).fill(Number.NaN));
  const band: Band = { ageDays, p10: lines[0]!, p50: lines[1]!, p90: lines[2]! };
  if (growth.models.length === 0) return band;
  const mixture = projectionOf(growth);
  const evaluate = evaluateAlong(mixture, ageDays);
  for (let i = 0; i < ageDays.length; i++) {
    evaluate(i);
    const values = mixtureQuantiles(
      mixture,
      PROBABILITIES.map((probability, l) => ({ probability, near: expectedAt(lines[l]!, i) })),
    );
    values.forEach((value, l) => {
      lines[l]![i] = value;
    });
  }
  return widened(band, growth.widening);
}

/** Where a line is looked for: on the parabola through the three points before. */
function expectedAt(line: Float64Array, i: number): number | undefined {
  if (i < 3) return line[i - 1];
  return line[i - 3]! + 3 * (line[i - 1]! - line[i - 2]!);
}

/** Distances of P10 and P90 from the median are multiplied by the widening. */
function widened({ ageDays, p10, p50, p90 }: Band, widening: number): Band {
  const from = (line: Float64Array) => line.map((value, i) => p50[i]! + widening * (value - p50[i]!));
  return { ageDays, p10: from(p10), p50, p90: from(p90) };
}
