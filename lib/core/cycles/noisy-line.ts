import { whiten } from '../fit/autoregressive';
import { mean } from '../stats/spread';

/** Figures of one cycle: days and values, ascending, equal lengths, and the noise about their smooth course. */
export type NoisyFigures = {
  /** [days] */
  t: Float64Array;
  /** [m²·K/W] */
  y: Float64Array;
  /** Correlation of each figure's noise with that of the one before it [-]; the first is not used. */
  correlations: Float64Array;
  /** Standard deviation of the noise [m²·K/W]. */
  deviation: number;
};

/** Figures with the columns of a straight line through them: ones, time, value. */
export type LineFigures = NoisyFigures & {
  /** Mean of all values [m²·K/W]: levels are told from it, so that they are small numbers. */
  centre: number;
  /** Time from the first figure [days] and value from the centre [m²·K/W]. */
  time: Float64Array;
  value: Float64Array;
  /** The columns with the correlation of the noise taken out; their first element cannot be, having none before it. */
  whitened: { one: Float64Array; time: Float64Array; value: Float64Array };
};

/**
 * Whitens the columns of a straight line once for the lines through any stretch of the figures.
 *
 * @param figures figures of a cycle with their noise, n of them
 * @returns the same with columns of length n
 * @range  any n
 * @source Brockwell & Davis, Introduction to Time Series and Forecasting, 2nd ed. 2002, sect. 2.2 and 6.6, as `whiten`
 * @check  tests/core/cycles/level-change.test.ts
 */
export function lineFigures(figures: NoisyFigures): LineFigures {
  const { t, y, correlations } = figures;
  const centre = mean(y);
  const time = t.map((at) => at - t[0]!);
  const value = y.map((each) => each - centre);
  const whitened = {
    one: whiten(correlations, new Float64Array(t.length).fill(1)),
    time: whiten(correlations, time.slice()),
    value: whiten(correlations, value.slice()),
  };
  return { ...figures, centre, time, value, whitened };
}

/** What some figures say of the level. */
type Level = {
  /** [m²·K/W from the centre] */
  value: number;
  /** Inverse of its variance, for noise of unit variance [-]. */
  weight: number;
};

/** Figures that a line goes through: `from` included, `to` excluded. */
type LineThrough = {
  from: number;
  to: number;
  /** Index of the figure whose instant the level is asked for. */
  at: number;
  /** Without a slope the level is the same everywhere. */
  isSloped: boolean;
  /** Whether the noise of the first hangs on a figure outside that is not known, so that it comes in as it is. */
  isCut: boolean;
};

/**
 * Level of the straight line through a stretch of figures, by generalised least squares under AR(1) noise.
 *
 * @param figures whitened figures, n of them
 * @param line    which of them, and where on their line
 * @returns level [m²·K/W from the centre] and its weight [-]
 * @range  0 ≤ from < to ≤ n; from > 0 where it is not cut; two figures for a slope
 * @source Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, sect. 9.2; normal equations with the slope eliminated
 * @check  tests/core/cycles/level-change.test.ts
 */
export function levelAt(figures: LineFigures, { from, to, at, isSloped, isCut }: LineThrough): Level {
  const { one, time, value } = figures.whitened;
  const origin = figures.time[at]!;
  const firstTime = figures.time[from]! - origin;
  const firstValue = figures.value[from]!;
  const first = isCut ? 1 : 0;
  let ones = first;
  let onesTime = first * firstTime;
  let timeTime = first * firstTime * firstTime;
  let onesValue = first * firstValue;
  let timeValue = first * firstTime * firstValue;
  for (let i = from + first; i < to; i++) {
    const own = one[i]!;
    const ownValue = value[i]!;
    // Time from that instant on: the level there is then the line's constant.
    const ownTime = time[i]! - origin * own;
    ones += own * own;
    onesTime += own * ownTime;
    timeTime += ownTime * ownTime;
    onesValue += own * ownValue;
    timeValue += ownTime * ownValue;
  }
  if (!isSloped) return { value: onesValue / ones, weight: ones };
  const share = onesTime / timeTime;
  const weight = ones - share * onesTime;
  return { value: (onesValue - share * timeValue) / weight, weight };
}
