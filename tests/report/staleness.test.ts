import { describe, expect, it } from 'vitest';
import type { FleetRecords, UnitRecords } from '@/lib/report/records';
import { fleetStaleness, unitStaleness } from '@/lib/report/staleness';

const DAY = 86_400_000;
const NOW = Date.parse('2026-11-25T08:00:00Z');
const site = (id: number, name: string) => ({ id, name, timeZone: 'Europe/Lisbon', currency: 'EUR' });
const unit = (siteId: number, asOf: number) =>
  ({ record: { site: site(siteId, '') }, result: { asOf: new Date(asOf).toISOString() } }) as never;

const fleet = (changes: Partial<FleetRecords>): FleetRecords => ({
  sites: [site(1, 'North'), site(2, 'South')],
  units: [unit(1, NOW), unit(2, NOW - DAY)],
  outages: [],
  supplies: [],
  planned: [],
  acceptedPlans: [],
  now: NOW,
  clock: NOW + DAY,
  due: 0,
  ...changes,
});

describe('the age of what the fleet page shows', () => {
  it('is not worth a word within two days', () => {
    expect(fleetStaleness(fleet({}))).toEqual([]);
  });

  it('is said when the newest reading is old, and for a site whose readings end before the others', () => {
    const lines = fleetStaleness(
      fleet({ clock: NOW + 40 * DAY, units: [unit(1, NOW), unit(2, NOW - 9 * DAY)] }),
    );
    expect(lines[0]).toMatch(/newest reading is of 25 Nov 2026/);
    expect(lines[1]).toBe('South: readings end on 16 Nov 2026; its units are judged as of then.');
  });

  it('is said when results wait for an analysis', () => {
    expect(fleetStaleness(fleet({ due: 1 }))[0]).toMatch(/^One unit has changed/);
  });
});

describe('the age of what a unit page shows', () => {
  const records = (changes: Partial<UnitRecords>) =>
    ({
      record: { site: site(1, 'North') },
      result: {},
      now: NOW,
      clock: NOW,
      isDue: false,
      ...changes,
    }) as UnitRecords;

  it('is said when the readings are old or changed since the analysis', () => {
    expect(unitStaleness(records({}))).toEqual([]);
    expect(unitStaleness(records({ clock: NOW + 10 * DAY }))[0]).toMatch(/end on 25 Nov 2026/);
    expect(unitStaleness(records({ isDue: true }))[0]).toMatch(/run cleanby analyse/);
  });
});
