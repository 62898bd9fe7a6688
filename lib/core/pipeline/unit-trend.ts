import type { Reason } from '../checks/reasons';
import type { CleaningResult } from '../cycles/cleaning-result';
import type { StepDown } from '../cycles/find-step-downs';
import type { Limit } from '../exchange/exchanger';
import type { Band, Crossing, Growth } from '../growth/growth';
import type { BalanceDrift } from './balance-drift';
import type { CycleSearch } from './cycle-spans';
import type { FlowDependence } from './flow-dependence';
import type { Lending } from './lending';
import type { Outlook } from './outlook';

/** One cycle: from one cleaning to the next. Days are local days since 1970-01-01. */
export type Cycle = {
  /** Instant of the cleaning that began it [ms]; null for the record's first cycle, whose beginning is not known. */
  start: number | null;
  /** Instant of the cleaning that ended it [ms]; null for the running cycle, and where a probable cleaning ended it. */
  end: number | null;
  /** What began it: a recorded cleaning, a fall nobody has explained yet, or the record itself. */
  began: 'cleaning' | 'probable-cleaning' | 'record';
  startDay: number;
  endDay: number;
  /** Daily figures with an accepted reading. */
  figures: number;
  /** Smooth fouling at its first and last figure [m²·K/W]; null where too few figures. */
  foulingAtStart: number | null;
  foulingAtEnd: number | null;
  /** Without the curves of its models: those of the running cycle are in the trend's own growth. */
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

/** A past projection beside what came of it: made anew with only what was known at a share of its cycle's life. */
export type Hindcast = {
  /** Local day on which its cycle began, and the day it is made on. */
  cycleStartDay: number;
  madeDay: number;
  /** 0.25, 0.5 or 0.75 of the days from the start of the cycle to the day the level was reached. */
  shareOfLife: number;
  /** What is projected: the limit, or where the cycle was cleaned before it, the fouling near its end [m²·K/W]. */
  level: number;
  isLimit: boolean;
  /** Day on which the smooth fouling of the whole cycle reached the level, and its standard uncertainty [days]. */
  reachedDay: number;
  reachedUncertainty: number;
  /** Projected days; null where not within the horizon. */
  p10Day: number | null;
  p50Day: number | null;
  p90Day: number | null;
  /** Whether P10 to P90 held the day; all before any widening. */
  held: boolean;
  /** Distance of the level from the projected median on that day, in half-widths of the band on its side [-]: ≤ 1 is held. */
  score: number;
};

/** By how much the projection is spread because past ones were too sure of themselves. */
export type Widening = {
  /** Multiplies the distance of P10 and P90 from the median fouling [-]; 1: none was needed. */
  factor: number;
  /** Whose record says so, and of how many past projections; 'none': too few yet. */
  from: 'unit' | 'fleet' | 'none';
  count: number;
};

/** What a young cycle borrows: how many earlier cycles of the unit, or like units, inform rate and form of its growth. */
export type Borrowed = { from: 'own-cycles' | 'like-units' | 'none'; cycles: number; units: number };

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
  /** Falls of the fouling that nobody has explained: probable cleanings, for a person to confirm or not. */
  probableCleanings: StepDown[];
  /** What the search for them found in recorded cycles that ended, so that it need not be made again; missing in old trends. */
  searches?: CycleSearch[];
  /** What each recorded cleaning within the record did. */
  cleaningResults: CleaningResult[];
  /** How past projections of this unit did, its widening and what its running cycle borrows. */
  record: Hindcast[];
  widening: Widening;
  borrowed: Borrowed;
  /** What of the daily figures followed the flows and was taken out before growth was fitted; null where nothing did. */
  flowDependence: FlowDependence | null;
  /** What the unit's ended cycles tell units of like service; null where they cannot tell. */
  lending: Lending | null;
  /** What fouling is expected to cost from today on, left as it is and after a cleaning; null where it is too early to say. */
  outlook: Outlook | null;
  health: {
    usable: number | null;
    worstReason: Reason | null;
    sinceDay: number | null;
    /** A slow change of the heat balance: some sensor is suspect. */
    drift: BalanceDrift | null;
    /** The earlier of the two beginnings: since when the data are suspect; null where they are not. */
    suspectSinceDay: number | null;
  };
};
