import { type EvaluationInput, evaluateReadings } from '../fouling/evaluate-readings';
import { unitModel } from '../fouling/unit-model';
import { AS_ON_DATASHEET } from './clean-reference';

/** The resistances of accepted readings of a clean unit, columns of length n, [ms], [m²·K/W]. */
export type FilmSplit = {
  time: Float64Array;
  /** 1/U as measured. */
  total: Float64Array;
  /** Standard uncertainty of 1/U. */
  uncertainty: Float64Array;
  /** Films and wall as the datasheet states them, at the reading's own flows and temperatures. */
  hot: Float64Array;
  cold: Float64Array;
  wall: number;
  /** Mass flows [kg/s]. */
  hotFlow: Float64Array;
  coldFlow: Float64Array;
};

/**
 * Splits each accepted reading of a period into what was measured, 1/U, and the clean resistances that the datasheet
 * states for its flows and temperatures. The hot film is what the clean resistance loses when its factor is 0.
 *
 * @param input  unit, thresholds and readings; its factors are not used
 * @param from   beginning of the period [ms]
 * @param to     its end [ms]; readings before it count
 * @returns columns of the accepted readings in the period, n may be 0
 * @range  as `evaluateReadings`
 * @source METHODS §5; resistances in series: Incropera et al., 6th ed. 2007, eq. 11.1a
 * @check  tests/core/clean/learn-two-films.test.ts
 */
export function filmSplit(input: EvaluationInput, from: number, to: number): FilmSplit {
  const whole = evaluateReadings({ ...input, cleanFactors: AS_ON_DATASHEET });
  const withoutHot = evaluateReadings({ ...input, cleanFactors: { hot: 0, wall: 1, cold: 1 } });
  const { wall } = unitModel(input.exchanger, input.settings).clean;
  const rows: number[] = [];
  for (let i = 0; i < whole.time.length; i++) {
    const at = whole.time[i]!;
    if (whole.reasons[i] === 0 && at >= from && at < to) rows.push(i);
  }
  const column = (value: (i: number) => number) => Float64Array.from(rows, value);
  return {
    time: column((i) => whole.time[i]!),
    total: column((i) => 1 / whole.overallU[i]!),
    uncertainty: column((i) => whole.overallUUncertainty[i]! / whole.overallU[i]! ** 2),
    hot: column((i) => 1 / whole.cleanU[i]! - 1 / withoutHot.cleanU[i]!),
    cold: column((i) => 1 / withoutHot.cleanU[i]! - wall),
    wall,
    hotFlow: column((i) => whole.hotMassFlow[i]!),
    coldFlow: column((i) => whole.coldMassFlow[i]!),
  };
}
