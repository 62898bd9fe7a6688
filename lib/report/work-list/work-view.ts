import { fleetToday } from '@/lib/report/cleanings/fleet-today';
import { formatMoney } from '@/lib/report/format/figure';
import { formatDay, formatInstant, MONTHS } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { planScope, planZone } from '@/lib/report/plan/accepted-plans';
import type { FleetRecords, PlannedRecord } from '@/lib/report/records';
import { fleetStaleness } from '@/lib/report/staleness';
import { DAY_MS } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { WORK_GROUPINGS, type WorkAddress, type WorkGrouping, workHref } from './work-address';
import { isOverdue, type WorkRecords } from './work-records';
import { type WorkRow, workRow } from './work-row';

export type WorkGroup = { title: string; rows: WorkRow[] };

/** Everything the work list shows. */
export type WorkView = {
  today: string;
  /** The plans that are in force; none before the first. */
  plans: string[];
  sentence: string;
  staleness: string[];
  groupings: { label: string; href: string; isCurrent: boolean }[];
  open: WorkGroup[];
  /** The latest first. */
  done: WorkRow[];
  calledOff: WorkRow[];
  printHref: string;
};

const GROUPING_WORDS: Record<WorkGrouping, string> = { date: 'By date', outage: 'By outage' };

/** The work list: what is to be done and when, what was done and what it did, what was called off. */
export function workView(records: WorkRecords, address: WorkAddress, system: UnitSystem): WorkView {
  const { fleet, work } = records;
  const rowsOf = (pieces: PlannedRecord[]) => pieces.map((piece) => workRow(piece, records, system));
  const inState = (state: PlannedRecord['state']) => work.filter((piece) => piece.state === state);
  const groups = groupsOf(inState('open'), records, address.by);
  return {
    today: formatDay(fleetToday(fleet)),
    plans: plansInWords(fleet),
    sentence: sentenceOf(records),
    staleness: fleetStaleness(fleet),
    groupings: WORK_GROUPINGS.map((by) => ({
      label: GROUPING_WORDS[by],
      href: workHref(address, { by }),
      isCurrent: by === address.by,
    })),
    open: [...groups].map(([title, pieces]) => ({ title, rows: rowsOf(pieces) })),
    done: rowsOf(inState('done').reverse()),
    calledOff: rowsOf(inState('called-off').reverse()),
    printHref: workHref(address, {}, '/plan/work/print'),
  };
}

function groupsOf(
  open: PlannedRecord[],
  { fleet }: WorkRecords,
  by: WorkGrouping,
): Map<string, PlannedRecord[]> {
  const groups = new Map<string, PlannedRecord[]>();
  const zones = new Map(fleet.sites.map(({ name, timeZone }) => [name, timeZone]));
  for (const piece of open) {
    const title = by === 'date' ? monthOf(piece.from, zones.get(piece.site) ?? 'UTC') : placeOf(piece);
    groups.set(title, [...(groups.get(title) ?? []), piece]);
  }
  return groups;
}

function monthOf(at: number, timeZone: string): string {
  const date = new Date(localDay(at, timeZone) * DAY_MS);
  return `${MONTHS[date.getUTCMonth()]} ${date.getUTCFullYear()}`;
}

function placeOf({ outage, site }: PlannedRecord): string {
  return outage === null ? 'Outside outages' : `${outage}, ${site}`;
}

/** "Plan 3 of Quay, accepted 25 Nov 2026, 10:00 (Europe/London) by shift lead: as agreed". */
export function plansInWords({
  acceptedPlans,
  sites,
}: Pick<FleetRecords, 'acceptedPlans' | 'sites'>): string[] {
  return acceptedPlans.map((plan) => {
    const { id, acceptedAt, acceptedBy, note } = plan;
    const timeZone = planZone(plan, sites);
    const at = `${formatInstant(acceptedAt, timeZone)} (${timeZone})`;
    return `Plan ${id}${planScope(plan)}, accepted ${at} by ${acceptedBy}${note === null ? '' : `: ${note}`}`;
  });
}

function sentenceOf({ fleet, work }: WorkRecords): string {
  const open = work.filter(({ state }) => state === 'open');
  if (open.length === 0) return 'No cleaning waits to be done.';
  const overdue = open.filter((piece) => isOverdue(piece, fleet.now)).length;
  const late = overdue === 0 ? 'none of them overdue' : `${overdue} of them overdue`;
  const hours = open.reduce((sum, { crewHours }) => sum + crewHours, 0);
  const sums = fleet.sites.flatMap(({ currency }, index, sites) => {
    if (sites.findIndex((site) => site.currency === currency) !== index) return [];
    const names = new Set(sites.filter((site) => site.currency === currency).map(({ name }) => name));
    const own = open.filter(({ site }) => names.has(site));
    if (own.length === 0) return [];
    const cost = own.reduce((sum, piece) => sum + piece.cost, 0);
    return [`they cost ${formatMoney(cost, currency)} with downtime`];
  });
  return `${countOf(open.length, 'cleaning')} to be done, ${late}; ${countOf(Math.round(hours), 'hour')} of work; ${sums.join('; ')}.`;
}
