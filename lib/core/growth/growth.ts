/** Growth models of fouling resistance with age in the cycle (METHODS: none to asymptotic, Kern & Seaton 1959). */
export const GROWTH_MODELS = ['none', 'linear', 'delayed-linear', 'falling-rate', 'asymptotic'] as const;
export type GrowthModelName = (typeof GROWTH_MODELS)[number];

/**
 * Parameters by model, ages t in days and Rf in m²·K/W (r0 = fouling left at the start of the cycle):
 * none Rf = r0; linear Rf = r0 + rate·t; delayed-linear Rf = r0 + rate·max(0, t − delay);
 * falling-rate Rf = r0 + coefficient·t^exponent (0 < exponent < 1); asymptotic Rf = r0 + asymptote·(1 − e^(−t/timeConstant)).
 */
export type FittedModel = {
  name: GrowthModelName;
  parameters: Record<string, number>;
  /** Same order as Object.keys(parameters). Autocorrelation of the residuals is already allowed for. */
  covariance: number[][];
  /** Akaike weight (AICc), the weights of one growth add to 1. */
  weight: number;
  /** AICc; where other cycles lead to expect a form, its counterpart (see `fitModel`). */
  aicc: number;
  /** The model's curves over its shape (delay, exponent or time constant): what projection integrates over. */
  curves: GrowthCurve[];
};

/** One curve Rf = r0 + amplitude·form(t) of a model, the amplitude being its rate, coefficient or asymptote. */
export type GrowthCurve = {
  /** Delay [days], exponent [-] or time constant [days]; 0 where the model has no shape. */
  shape: number;
  /** Share of this curve in its model, adding to 1. */
  weight: number;
  r0: number;
  /** Least-squares value; where it is not positive, only the part of its distribution above 0 is used. */
  amplitude: number;
  r0Variance: number;
  amplitudeVariance: number;
  covariance: number;
};

/** What the cycle's daily figures say about growth: the averaged models and the figures they came from. */
export type Growth = {
  models: FittedModel[];
  /** Daily figures used, and the length of record they cover [days]. */
  count: number;
  spanDays: number;
  /** Age of the last figure [days]: where the past ends and projection begins. */
  lastAgeDays: number;
  /** Lag-1 autocorrelation of the residuals of the best model, and their standard deviation [m²·K/W]. */
  autocorrelation: number;
  residualDeviation: number;
  /** Model-averaged slope at the last figure [m²·K/W per day] and its standard uncertainty. */
  ratePerDay: number;
  ratePerDayUncertainty: number;
  /** Model-averaged smooth fouling at the last figure [m²·K/W] and its standard uncertainty. */
  foulingResistance: number;
  foulingResistanceUncertainty: number;
  /** Whether other cycles informed the form of the growth. */
  isFormExpected: boolean;
  /** Distances of a projection's quantiles from its median are multiplied by this [-], ≥ 1 (past projections too narrow). */
  widening: number;
};

/** First crossing of a limit by the smooth fouling, ages in days since the start of the cycle; null = not within the horizon. */
export type Crossing = {
  p10: number | null;
  p50: number | null;
  p90: number | null;
  /** Probability that the limit is reached before the horizon's end, 0 to 1. */
  withinHorizon: number;
};

/** Quantiles of the smooth fouling at given ages [m²·K/W], for the projected band. */
export type Band = { ageDays: Float64Array; p10: Float64Array; p50: Float64Array; p90: Float64Array };
