import type { FleetAddress, FleetGroup, FleetSort } from './fleet-address';
import type { FleetKeys } from './fleet-row';

/** What a list of the fleet holds: heads of groups and rows, in order. */
export type FleetItem<Row extends FleetKeys> =
  | { kind: 'group'; name: string; rows: Row[] }
  | { kind: 'row'; row: Row; rank: number };

/** What of an address says which rows are shown, and in which order. */
export type FleetChoice = Pick<FleetAddress, 'states' | 'site' | 'find' | 'sort'>;

type Order = (a: FleetKeys, b: FleetKeys) => number;

const collator = new Intl.Collator('en-GB', { numeric: true });
const byTag: Order = (a, b) => collator.compare(a.tag, b.tag);

/** Over the limit first, longest over on top; then by P50; then units without data; then those not within the horizon by chance. */
const byCleanBy: Order = (a, b) =>
  urgency(a) - urgency(b) ||
  ascending(a.days.crossed, b.days.crossed, urgency(a) === 0) ||
  ascending(a.days.p50, b.days.p50, urgency(a) === 1) ||
  descending(a.withinHorizon, b.withinHorizon) ||
  byTag(a, b);

function urgency(row: FleetKeys): number {
  if (row.state === 'over-limit') return 0;
  if (row.state === 'no-data') return 2;
  return row.days.p50 === null ? 3 : 1;
}

function ascending(a: number | null, b: number | null, applies = true): number {
  if (!applies || a === b) return 0;
  return (a ?? Number.POSITIVE_INFINITY) - (b ?? Number.POSITIVE_INFINITY);
}

function descending(a: number | null, b: number | null): number {
  if (a === b) return 0;
  return (b ?? Number.NEGATIVE_INFINITY) - (a ?? Number.NEGATIVE_INFINITY);
}

const ORDERS: Record<FleetSort, Order> = {
  'clean-by': byCleanBy,
  money: (a, b) => descending(a.perDay, b.perDay) || descending(a.lostDuty, b.lostDuty) || byTag(a, b),
  // No readings at all is the worst of health.
  health: (a, b) => ascending(a.usable ?? -1, b.usable ?? -1) || byTag(a, b),
  tag: byTag,
};

/** Rows in order. */
export function sortRows<Row extends FleetKeys>(rows: readonly Row[], sort: FleetSort): Row[] {
  return [...rows].sort(ORDERS[sort]);
}

/** The rows of some in order that an address asks for. */
export function findRows<Row extends FleetKeys>(
  sorted: readonly Row[],
  { states, site, find }: Omit<FleetChoice, 'sort'>,
): Row[] {
  const words = find.toLowerCase().split(/\s+/).filter(Boolean);
  return sorted
    .filter((row) => states.length === 0 || states.includes(row.state))
    .filter((row) => site === null || row.site === site)
    .filter((row) => {
      if (words.length === 0) return true;
      const text = `${row.tag} ${row.service} ${row.site}`.toLowerCase();
      return words.every((word) => text.includes(word));
    });
}

/** Rows under the heads of their groups; groups stand in the order of their first row. */
export function groupRows<Row extends FleetKeys>(rows: Row[], group: FleetGroup): FleetItem<Row>[] {
  if (group === 'none') return rows.map((row, index) => ({ kind: 'row', row, rank: index + 1 }));
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const name = (group === 'site' ? row.site : row.service) || 'no service stated';
    const members = groups.get(name);
    if (members === undefined) groups.set(name, [row]);
    else members.push(row);
  }
  let rank = 0;
  return [...groups].flatMap(([name, members]): FleetItem<Row>[] => [
    { kind: 'group', name, rows: members },
    ...members.map((row): FleetItem<Row> => ({ kind: 'row', row, rank: ++rank })),
  ]);
}
