import type { State } from '@/lib/contract/results';
import { STATES } from '@/lib/contract/unit-states';

const FLEET_SORTS = ['clean-by', 'money', 'health', 'tag'] as const;
const FLEET_GROUPS = ['none', 'site', 'service'] as const;
const FLEET_VIEWS = ['axis', 'table'] as const;
/** Months shown back from today and ahead of it. */
export const MONTHS_BACK = [6, 12, 18] as const;
export const MONTHS_AHEAD = [9, 18] as const;

export type FleetSort = (typeof FLEET_SORTS)[number];
export type FleetGroup = (typeof FLEET_GROUPS)[number];

/** Everything of the fleet page that lives in the address, so that a link shows the same thing. */
export type FleetAddress = {
  back: (typeof MONTHS_BACK)[number];
  ahead: (typeof MONTHS_AHEAD)[number];
  sort: FleetSort;
  group: FleetGroup;
  /** States shown; empty shows all. */
  states: State[];
  site: string | null;
  find: string;
  view: (typeof FLEET_VIEWS)[number];
  /** Place of the first row shown where nothing scrolls: a browser without scripts goes through the fleet by links. */
  from: number;
};

export const DEFAULT_FLEET_ADDRESS: FleetAddress = {
  back: 12,
  ahead: 9,
  sort: 'clean-by',
  group: 'none',
  states: [],
  site: null,
  find: '',
  view: 'axis',
  from: 0,
};

type Given = Record<string, string | string[] | undefined>;

/** The fleet address of search parameters; what cannot be read takes its default. */
export function readFleetAddress(given: Given): FleetAddress {
  const standard = DEFAULT_FLEET_ADDRESS;
  const stated = first(given.state)?.split(',') ?? [];
  return {
    back: MONTHS_BACK.find((months) => String(months) === first(given.back)) ?? standard.back,
    ahead: MONTHS_AHEAD.find((months) => String(months) === first(given.ahead)) ?? standard.ahead,
    sort: FLEET_SORTS.find((sort) => sort === first(given.sort)) ?? standard.sort,
    group: FLEET_GROUPS.find((group) => group === first(given.group)) ?? standard.group,
    states: STATES.filter((state) => stated.includes(state)),
    site: first(given.site) || standard.site,
    find: first(given.find) ?? standard.find,
    view: FLEET_VIEWS.find((view) => view === first(given.view)) ?? standard.view,
    from: placeOf(first(given.from)),
  };
}

function placeOf(text: string | undefined): number {
  return text !== undefined && /^\d{1,7}$/.test(text) ? Number(text) : DEFAULT_FLEET_ADDRESS.from;
}

/** The search parameters of a fleet address, defaults left out; parameters of others (`units`) are kept. */
export function writeFleetAddress(address: FleetAddress, kept: URLSearchParams): URLSearchParams {
  const written = new URLSearchParams(kept);
  const standard = DEFAULT_FLEET_ADDRESS;
  const put = (name: string, value: string, isDefault: boolean) =>
    isDefault ? written.delete(name) : written.set(name, value);
  put('back', String(address.back), address.back === standard.back);
  put('ahead', String(address.ahead), address.ahead === standard.ahead);
  put('sort', address.sort, address.sort === standard.sort);
  put('group', address.group, address.group === standard.group);
  put('state', address.states.join(','), address.states.length === 0);
  put('site', address.site ?? '', address.site === null);
  put('find', address.find, address.find === '');
  put('view', address.view, address.view === standard.view);
  put('from', String(address.from), address.from === standard.from);
  return written;
}

function first(value: string | string[] | undefined): string | undefined {
  return Array.isArray(value) ? value[0] : value;
}
