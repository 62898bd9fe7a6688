/** Thresholds of the screening of one unit; the defaults suit hourly readings (common practice). */
export type CheckSettings = {
  /** Temperatures outside are "out of range" [°C]. */
  minimumTemperature: number;
  maximumTemperature: number;
  /** A flow above this multiple of the design flow is "out of range" [-]. */
  maximumFlowShare: number;
  /** Both flows below this share of design: the unit is off [-]. */
  offFlowShare: number;
  /** A flow below this share of design is below turndown: film exponents no longer hold [-]. */
  turndownFlowShare: number;
  /** A sensor that repeats one value for at least this long, while others move, is frozen [h]. */
  frozenHours: number;
  /** Hampel identifier: half window [readings] and threshold [scaled median absolute deviations]. */
  spikeHalfWindow: number;
  spikeThreshold: number;
  /** The smaller terminal difference must be at least this multiple of its own standard uncertainty [-]. */
  terminalDifferenceMultiple: number;
  /** Balance closes when |Qh − Qc|/mean is within the larger of this share and the multiple of its uncertainty. */
  balanceTolerance: number;
  balanceUncertaintyMultiple: number;
  /** Time the exchanger takes to settle after a change [min]; 0: steadiness is not judged. */
  settlingMinutes: number;
  /** A value moves when it changes by more than this multiple of its standard uncertainty within the settling time [-]. */
  steadyMultiple: number;
};

export const DEFAULT_CHECK_SETTINGS: CheckSettings = {
  minimumTemperature: -60,
  maximumTemperature: 500,
  maximumFlowShare: 2,
  offFlowShare: 0.05,
  turndownFlowShare: 0.3,
  frozenHours: 8,
  spikeHalfWindow: 6,
  spikeThreshold: 6,
  terminalDifferenceMultiple: 3,
  balanceTolerance: 0.1,
  balanceUncertaintyMultiple: 3,
  // Contents of each side renewed in one to two minutes, walls and a thermometer in its well behind them: three time
  // constants of about three minutes (own choice).
  settlingMinutes: 10,
  steadyMultiple: 3,
};
