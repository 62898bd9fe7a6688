import type { DatedRate } from '../cost/dated-rate';

/** Everywhere in a plan a time is in local days of the site since 1970-01-01, with a fraction: 20,000.5 is noon. */

/** What the planner states and the fleet's results say: everything a plan is made from, as plain data. */
export type PlanInput = {
  /** First day of the plan (the day after the results' today) and the day after its last. */
  from: number;
  to: number;
  /** Probability with which each unit must be cleaned before its limit [-]. */
  confidence: number;
  outages: PlanOutage[];
  /** Crews that clean outside outages, by site (null: one crew for every site); none: cleanings in outages only. */
  crews: { site: string | null; hoursPerWeek: number }[];
  /** Groups of tags of which no two may be out at the same time. */
  notTogether: string[][];
  units: PlanUnitInput[];
  /** Cleanings that must stay where they are. */
  locked: { tag: string; start: number }[];
};

export type PlanOutage = {
  name: string;
  from: number;
  to: number;
  /** Hours of work that fit into it; null: as many as needed. */
  crewHours: number | null;
  /** null: every site is out. */
  site: string | null;
};

/** One unit: what it loses with time, when it must be cleaned, and what a cleaning takes. */
export type PlanUnitInput = {
  tag: string;
  site: string;
  /** Day from which `ages` counts for a unit that is left as it is: the results' today. */
  asOf: number;
  /** Ages of the curves, ascending from 0 [days]: since `asOf` if left, since the end of the cleaning after one. */
  ages: number[];
  /** Expected lost duty and extra pumping power at each age [W]; held at the last value beyond the last age. */
  lostDuty: number[];
  pumping: number[];
  lostDutyAfter: number[];
  pumpingAfter: number[];
  /** Money per joule lost, of heat and of pumping work, from a day on; empty: no price. */
  heatRates: DatedRate[];
  pumpingRates: DatedRate[];
  /** Day before which a first cleaning must start at the plan's confidence; null: none within the horizon. */
  deadline: number | null;
  /** Whether that day has passed already (over its limit, or too little confidence left). */
  isOverdue: boolean;
  /** Days from the end of a cleaning within which the next must start; null: none within the horizon. */
  life: number | null;
  cleaning: {
    /** [money] */
    cost: number;
    /** Time out of service [days] and work [h]. */
    durationDays: number;
    crewHours: number;
    method: string | null;
    /** Not outside outages. */
    inOutageOnly: boolean;
    /** Money lost for each day out of service outside an outage. */
    downtimePerDay: number;
  };
};
