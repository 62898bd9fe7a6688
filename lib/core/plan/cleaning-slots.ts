import type { PlanInput, PlanOutage, PlanUnitInput } from './plan-input';
import type { CleaningOption, CrewPool } from './plan-problem';

const WEEK_DAYS = 7;
/** Day number of a Monday: 5 January 1970. */
const A_MONDAY = 4;
/** When on a Monday a crew starts [days]: 08:00, common practice. */
const WORK_START = 8 / 24;
/** Instants nearer than this are the same [days]: a tenth of a second. */
const SAME_INSTANT = 1e-6;

/**
 * Pools of crew hours: one for each outage, in the order of the input, then one for each week of each crew. A week that the
 * plan's end cuts keeps its hours.
 *
 * @param input plan's days, outages and crews
 * @returns pools; weeks begin on Mondays, the first on or after the plan's first day [local days]
 * @range  any
 * @source none: convention
 * @check  tests/core/plan/make-problem.test.ts
 */
export function crewPools({ from, to, outages, crews }: PlanInput): CrewPool[] {
  const first = Math.ceil((from - A_MONDAY) / WEEK_DAYS) * WEEK_DAYS + A_MONDAY;
  const weeks = Math.max(0, Math.ceil((to - first) / WEEK_DAYS));
  return [
    ...outages.map(
      (outage, index): CrewPool => ({
        kind: 'outage',
        index,
        site: outage.site,
        from: outage.from,
        to: outage.to,
        hours: outage.crewHours ?? Number.POSITIVE_INFINITY,
      }),
    ),
    ...crews.flatMap(({ site, hoursPerWeek }) =>
      Array.from({ length: weeks }, (_, index): CrewPool => {
        const monday = first + index * WEEK_DAYS;
        return { kind: 'week', index, site, from: monday, to: monday + WEEK_DAYS, hours: hoursPerWeek };
      }),
    ),
  ];
}

/** What the options of a unit are made from. */
export type SlotSpace = { input: PlanInput; pools: readonly CrewPool[] };

/**
 * Every way to clean a unit once: at the start of an outage of its site into which the cleaning fits (no downtime: the plant
 * is out; crew from the outage), and on the Monday of every week for which its site has a crew, unless that would reach into
 * an outage (then the crew is there and the unit is out anyway). Every cleaning ends within the plan.
 *
 * @param space plan and its pools
 * @param unit  what a cleaning takes
 * @returns options in order of start
 * @range  any
 * @source none: convention
 * @check  tests/core/plan/make-problem.test.ts
 */
export function cleaningOptions(space: SlotSpace, unit: PlanUnitInput): CleaningOption[] {
  const { input, pools } = space;
  const outages = input.outages.flatMap((outage, index) => {
    const option = outageOption(space, unit, { index, start: Math.max(outage.from, input.from) });
    return option === null ? [] : [option];
  });
  const weeks = weekPools(pools, unit).flatMap(({ from }) => {
    const option = weekOption(space, unit, from + WORK_START);
    return option === null ? [] : [option];
  });
  return [...outages, ...weeks].sort((a, b) => a.start - b.start);
}

/**
 * The way to clean a unit at a stated instant: in an outage it fits into, else by the crew of the week.
 *
 * @param space plan and its pools
 * @param unit  what a cleaning takes
 * @param start [local days]
 * @returns null where there is no place
 * @range  any
 * @source none: convention
 * @check  tests/core/plan/make-problem.test.ts
 */
export function optionAt(space: SlotSpace, unit: PlanUnitInput, start: number): CleaningOption | null {
  for (let index = 0; index < space.input.outages.length; index++) {
    const option = outageOption(space, unit, { index, start });
    if (option !== null) return option;
  }
  return weekOption(space, unit, start);
}

/**
 * Whether an outage puts a site out.
 *
 * @param outage its site, or null for every one
 * @param site   of a unit
 * @returns true where the site is out
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/make-problem.test.ts
 */
export function isOutAt(outage: PlanOutage, site: string): boolean {
  return outage.site === null || outage.site === site;
}

function outageOption(
  { input }: SlotSpace,
  { site, cleaning }: PlanUnitInput,
  { index, start }: { index: number; start: number },
): CleaningOption | null {
  const outage = input.outages[index]!;
  const end = start + cleaning.durationDays;
  const begins = Math.max(outage.from, input.from);
  const ends = Math.min(outage.to, input.to);
  const fits = start >= begins - SAME_INSTANT && start < ends && end <= ends + SAME_INSTANT;
  if (!isOutAt(outage, site) || !fits) return null;
  const crew = cleaning.crewHours > 0 ? [{ pool: index, hours: cleaning.crewHours }] : [];
  return { start, end, outage: index, cost: cleaning.cost, downtime: 0, crew };
}

function weekOption({ input, pools }: SlotSpace, unit: PlanUnitInput, start: number): CleaningOption | null {
  const { site, cleaning } = unit;
  const end = start + cleaning.durationDays;
  const weeks = weekPools(pools, unit);
  const isCovered = weeks.some(({ from, to }) => from <= start && start < to);
  if (!isCovered || start < input.from || start >= input.to || end > input.to + SAME_INSTANT) return null;
  const reachesOutage = input.outages.some(
    (outage) =>
      isOutAt(outage, site) &&
      start < outage.to &&
      (end > outage.from || start >= outage.from - SAME_INSTANT),
  );
  if (reachesOutage) return null;
  const crew = weeks
    .map((week) => ({ pool: pools.indexOf(week), hours: cleaning.crewHours * shareIn(week, start, end) }))
    .filter(({ hours }) => hours > 0);
  const downtime = cleaning.durationDays * cleaning.downtimePerDay;
  return { start, end, outage: null, cost: cleaning.cost, downtime, crew };
}

/** Weeks of the unit's own crew, or else of the one for every site; none for a unit that is cleaned in outages only. */
function weekPools(pools: readonly CrewPool[], { site, cleaning }: PlanUnitInput): CrewPool[] {
  if (cleaning.inOutageOnly) return [];
  const weeks = pools.filter(({ kind }) => kind === 'week');
  const own = weeks.filter((pool) => pool.site === site);
  return own.length > 0 ? own : weeks.filter((pool) => pool.site === null);
}

function shareIn({ from, to }: CrewPool, start: number, end: number): number {
  if (end <= start) return start >= from && start < to ? 1 : 0;
  return Math.max(0, Math.min(end, to) - Math.max(start, from)) / (end - start);
}
