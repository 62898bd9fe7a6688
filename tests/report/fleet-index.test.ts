import { describe, expect, it } from 'vitest';
import {
  chosenRows,
  figuresOf,
  fleetEntry,
  fleetIndex,
  fleetWindow,
  type WindowItem,
} from '@/lib/report/fleet/fleet-index';
import { fleetUnit } from '@/lib/report/fleet/fleet-unit';
import { readTrace, traceDays, writeTrace } from '@/lib/report/fleet/summary-trace';
import { DEFAULT_FLEET_ADDRESS, type FleetAddress } from '@/lib/report/fleet-address';
import { groupRows } from '@/lib/report/fleet-order';
import { plannedByUnit } from '@/lib/report/fleet-view';
import { chooseRows } from '../support/choose-rows';
import { dailyOf, fleetOf, type Story } from '../support/fleet-records';
import { fleetViewOf } from '../support/fleet-view-of';

/** A fleet of units that differ in all that rows are sorted, found and grouped by. */
const STORIES = Array.from({ length: 200 }, (_, at): Story => {
  const p50 = (at * 37) % 300;
  return {
    tag: `U-${at}`,
    service: `Service ${at % 7}`,
    cleanBy: [p50 - 5, p50, p50 + 9],
    perDay: (at * 61) % 97,
    lostDuty: at % 11 === 0 ? null : 1_000 * at,
    ...(at % 13 === 0 ? { state: 'no-data', usable: 0, silentDays: 30 } : {}),
    ...(at % 17 === 0 ? { state: 'over-limit', crossedDaysAgo: at } : {}),
  };
});
const records = fleetOf(STORIES);
const collator = new Intl.Collator('en-GB', { numeric: true });

function indexOf() {
  const entries = records.units
    .map((unit) => fleetEntry(fleetUnit(unit)))
    .sort((a, b) => collator.compare(a.tag, b.tag));
  return fleetIndex('1', { ...records, newest: new Map(), planned: plannedByUnit(records.planned) }, entries);
}

const ADDRESSES: Partial<FleetAddress>[] = [
  {},
  { sort: 'money' },
  { sort: 'health', group: 'service' },
  { sort: 'tag', group: 'site' },
  { states: ['over-limit', 'no-data'], group: 'service' },
  { find: 'service 3 u-1' },
];

describe('the fleet in windows', () => {
  it.each(ADDRESSES)('are together the whole list of %j, in its order and with its pictures', (change) => {
    const address = { ...DEFAULT_FLEET_ADDRESS, ...change };
    const index = indexOf();
    const whole = fleetViewOf(records, address, 'si');
    const expected = groupRows(chooseRows(whole.rows, address), address.group);
    const items: WindowItem[] = [];
    for (let from = 0; from < expected.length; from += 30)
      items.push(...fleetWindow(index, address, { from, items: 30 }).items);
    expect(items.map((item) => (item.kind === 'row' ? [item.rank, item.row] : item.name))).toEqual(
      expected.map((item) => (item.kind === 'row' ? [item.rank, item.row] : item.name)),
    );
    const heads = expected.flatMap(({ kind }, at) => (kind === 'group' ? [at] : []));
    expect(fleetWindow(index, address, { from: 0, items: 1 })).toMatchObject({
      heads,
      count: expected.length,
      rows: expected.length - heads.length,
    });
  });

  it('say at the head of a group how many units there are and what they lose together', () => {
    const window = fleetWindow(
      indexOf(),
      { ...DEFAULT_FLEET_ADDRESS, group: 'service' },
      { from: 0, items: 1 },
    );
    const [head] = window.items;
    if (head?.kind !== 'group') throw new Error('begins with a head');
    const own = fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').rows.filter(
      (row) => row.service === head.name,
    );
    expect(head.units).toBe(own.length);
    expect(head.lostDuty).toBeCloseTo(
      own.reduce((sum, row) => sum + (row.lostDuty ?? 0), 0),
      6,
    );
  });

  it('beyond the end are empty, and know the length of the list', () => {
    const window = fleetWindow(indexOf(), DEFAULT_FLEET_ADDRESS, { from: 5_000, items: 30 });
    expect(window).toMatchObject({ items: [], rows: 200, count: 200 });
  });

  it('sort an address out once', () => {
    const index = indexOf();
    expect(chosenRows(index, DEFAULT_FLEET_ADDRESS)).toBe(chosenRows(index, { ...DEFAULT_FLEET_ADDRESS }));
  });

  it('have the same words as the rows for a file, in pieces of any size', () => {
    const address: FleetAddress = { ...DEFAULT_FLEET_ADDRESS, sort: 'money', group: 'service' };
    const whole = fleetViewOf(records, address, 'si').rows;
    const expected = groupRows(chooseRows(whole, address), 'service').flatMap((item) =>
      item.kind === 'row' ? [[item.row.tag, item.row.used, item.row.cleanBy]] : [],
    );
    const pieces = [...figuresOf(indexOf(), address, 33)].flat();
    expect(pieces.map(({ tag, used, cleanBy }) => [tag, used, cleanBy])).toEqual(expected);
  });
});

describe('the summary of a unit', () => {
  it('keeps each day of its trace to seven digits, gaps and doubtful days included', () => {
    const daily = dailyOf({ tag: 'S-1', recordDays: 400 });
    daily.foulingResistance.fill(Number.NaN, 100, 130);
    daily.accepted.fill(2, 200, 240);
    const days = traceDays(daily, daily.day[50]!);
    const back = readTrace(JSON.parse(JSON.stringify(writeTrace(days))));
    expect(back.map(({ day, isPoor }) => [day, isPoor])).toEqual(
      days.map(({ day, isPoor }) => [day, isPoor]),
    );
    expect(days).toHaveLength(320);
    expect(days.some(({ isPoor }) => isPoor)).toBe(true);
    for (const [at, { foulingResistance }] of back.entries()) {
      const exact = days[at]!.foulingResistance;
      expect(Math.abs(foulingResistance - exact)).toBeLessThanOrEqual(Math.abs(exact) * 6e-8);
    }
  });

  it('is of a few kilobytes, however long the record', () => {
    const summary = fleetUnit(fleetOf([{ tag: 'L-1', recordDays: 3_650 }]).units[0]!).summary;
    expect(JSON.stringify(summary).length).toBeLessThan(6_000);
  });
});
