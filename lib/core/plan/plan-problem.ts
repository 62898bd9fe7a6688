/** Hours of work in an outage, or of a crew in a week: what cleanings compete for. */
export type CrewPool = {
  kind: 'outage' | 'week';
  /** Index of the outage in the input, or of the week since the plan's first. */
  index: number;
  site: string | null;
  from: number;
  to: number;
  /** [h]; Infinity: as many as needed. */
  hours: number;
};

/** One way to clean a unit once: when, and what that takes. */
export type CleaningOption = {
  start: number;
  end: number;
  /** Index into the input's outages; null outside them. */
  outage: number | null;
  /** [money] */
  cost: number;
  downtime: number;
  /** Hours taken from each pool. */
  crew: { pool: number; hours: number }[];
};

/** A unit with every way to clean it, in order of start. A schedule of it is a list of ascending options. */
export type PlanUnit = {
  tag: string;
  options: CleaningOption[];
  /**
   * Money lost between two cleanings. Row 0: from the plan's first day; row k + 1: from the end of option k. Column l: until
   * the start of option l; the last column: until the end of the plan. NaN where l does not follow k. Row after row.
   */
  losses: Float64Array;
  /**
   * How late the next cleaning comes, likewise [days]: 0 where the unit is cleaned before its limit at the plan's confidence.
   */
  lateness: Float64Array;
  /** Options that must be part of its schedule, ascending. */
  locked: number[];
  /** Day before which a first cleaning must start, and days from the end of one within which the next must; null: no limit. */
  deadline: number | null;
  life: number | null;
  /** Its limit had been reached before the plan began: it cannot be in time, only as early as possible. */
  isOverdue: boolean;
};

/** The plan as a problem: units with their options, what they compete for, and who must not be out with whom. */
export type PlanProblem = {
  from: number;
  to: number;
  pools: CrewPool[];
  units: PlanUnit[];
  /** Pairs of indexes into `units`. */
  notTogether: [number, number][];
  /** Units with a locked cleaning for which there is no place where it is. */
  unplaced: number[];
};

/** Options chosen for each unit, ascending, in the order of the problem's units. */
export type Schedule = number[][];

/** A constraint that a schedule breaks, and the units (indexes) that break it together. */
export type Clash =
  | { kind: 'crew'; units: number[]; pool: number; needed: number; available: number }
  | { kind: 'together'; units: number[]; from: number; to: number }
  | { kind: 'limit'; units: number[]; daysLate: number }
  | { kind: 'no-place'; units: number[] };

/** What a schedule costs [money]; without `total` of clashes. */
export type PlanCost = { cleaning: number; downtime: number; loss: number; total: number };
