import type { Reason } from '../checks/reasons';
import type { Limit } from '../exchange/exchanger';
import type { Band, Crossing, Growth } from '../growth/growth';

/** One cycle: from one cleaning to the next. Days are local days since 1970-01-01. */
export type Cycle = {
  /** Instant of the cleaning that began it [ms]; null for the record's first cycle, whose beginning is not known. */
  start: number | null;
  /** Instant of the cleaning that ended it [ms]; null for the running cycle. */
  end: number | null;
  startDay: number;
  endDay: number;
  /** Daily figures with an accepted reading. */
  figures: number;
  /** Smooth fouling at its first and last figure [m²·K/W]; null where too few figures. */
  foulingAtStart: number | null;
  foulingAtEnd: number | null;
  growth: Growth | null;
};

/** Growth of a pressure drop of its own in the running cycle, at the design flow. */
export type PressureDropTrend = {
  /** Smooth value at the last figure with its standard uncertainty, and where the cycle began [Pa]. */
  value: number;
  uncertainty: number;
  atStart: number;
  /** Projected from today to the horizon [Pa], ages in days since the running cycle's startDay; null where it is too early. */
  band: Band | null;
};

/** One limit judged: its equivalent fouling resistance at recent conditions, and when it is reached. */
export type LimitResult = {
  limit: Limit;
  /** Fouling resistance at which this limit is reached under recent conditions [m²·K/W]; null if it cannot be. */
  foulingResistance: number | null;
  /** Ages turned into local days; null where not within the horizon. */
  p10Day: number | null;
  p50Day: number | null;
  p90Day: number | null;
  /** Probability [-]; null where it is too early, or there is nothing recent, to say. */
  withinHorizon: number | null;
  crossedDay: number | null;
  crossing: Crossing | null;
  /** What a limit of the pressure drop is judged by; null for any other, and where it is not measured. */
  pressureDrop: PressureDropTrend | null;
};

/** Everything the product says of a unit on one day, before it is put into words and dates. */
export type UnitTrend = {
  /** Instant of the newest reading used [ms]; null without readings. */
  lastReading: number | null;
  state: 'clean' | 'fouling' | 'near-limit' | 'over-limit' | 'no-data';
  /** Smooth fouling today [m²·K/W] with its combined standard uncertainty; null where nothing recent can be said. */
  foulingResistance: number | null;
  foulingResistanceUncertainty: number | null;
  cleanliness: number | null;
  /** Fouling as share of the governing limit's equivalent fouling resistance [-], with its standard uncertainty. */
  allowanceUsed: number | null;
  allowanceUsedUncertainty: number | null;
  cycles: Cycle[];
  /** Growth of the running cycle. */
  growth: Growth | null;
  ratePerDay: number | null;
  limits: LimitResult[];
  /** Index into `limits` of the one reached first; null without any. */
  governing: number | null;
  horizonDays: number;
  /** Projected smooth fouling from today to the horizon, ages in days since the running cycle's startDay. */
  band: Band | null;
  /** Mean lost duty of the last seven days with figures [W]. */
  lostDuty: number | null;
  /** [J] */
  energyLostSinceCleaning: number | null;
  energyLostLast30Days: number | null;
  health: { usable: number | null; worstReason: Reason | null; sinceDay: number | null };
};
