import { describe, expect, it } from 'vitest';
import { calendarSchema } from '@/lib/contract/calendar';
import { fleetFileSchema, type Unit } from '@/lib/contract/fleet-file';
import { toSi } from '@/lib/contract/ucum';
import { DEMO_FLEETS } from '@/seed/demo-fleet';
import { demoCalendars, demoPlans, demoRegistrations, lastHour } from '@/seed/demo-plan';
import { DEMO_DAYS } from '@/seed/histories/story';

const DAY = 24 * 3_600_000;
const ENDS = ['2026-11-25T08:30:00Z', '2026-07-10T22:10:00Z', '2027-03-29T03:00:00Z'].map((at) =>
  lastHour(Date.parse(at)),
);
const units = DEMO_FLEETS.flatMap((fleet) => fleet.units);
const tagsWhere = (test: (unit: Unit) => boolean) => units.filter(test).map(({ tag }) => tag);

describe.each(ENDS)('what energy costs in the demonstration that ends at %d', (end) => {
  const files = demoRegistrations(end);

  it('is stated in valid fleet files by every supply that a unit names', () => {
    for (const file of files) {
      expect(fleetFileSchema.parse(JSON.parse(JSON.stringify(file)))).toEqual(file);
      const known = file.site.supplies!.map(({ name }) => name);
      const named = file.units.flatMap(({ energy, pumping }) => [
        energy?.supply ?? [],
        pumping?.supply ?? [],
      ]);
      for (const name of named.flat()) expect(known).toContain(name);
    }
  });

  it('is known since before the record begins, and changes at least twice while it runs', () => {
    const begin = end - DEMO_DAYS * DAY;
    for (const { name, dated } of files.flatMap(({ site }) => site.supplies!)) {
      const days = dated.map(({ from }) => Date.parse(from));
      expect(days, name).toEqual([...days].sort((a, b) => a - b));
      expect(dated[0]!.price && dated[0]!.carbon, name).toBeDefined();
      expect(days[0]!, name).toBeLessThan(begin);
      expect(
        dated.filter((change, i) => change.price && days[i]! > begin).length,
        name,
      ).toBeGreaterThanOrEqual(2);
      expect(days.at(-1)!, name).toBeLessThan(end);
    }
  });
});

describe('the terms of the demonstration', () => {
  it('are a supply for most units, an undated price for three and none for one', () => {
    expect(tagsWhere(({ energy }) => energy?.price !== undefined).sort()).toEqual([
      'CA-242',
      'FH-141',
      'LC-172',
    ]);
    const isUnpriced = ({ energy }: Unit) => energy?.price === undefined && energy?.supply === undefined;
    expect(tagsWhere(isUnpriced)).toEqual(['GO-231']);
  });

  it('state the clean pressure drop with which the readings are made', () => {
    const checked = demoPlans().flatMap(({ unit, measurement }) =>
      (['hot', 'cold'] as const).flatMap((side) => {
        const truth = measurement[`${side}PressureDrop`];
        if (truth === null) return [];
        const stated = unit.pumping?.[`${side}Clean`];
        // Within the rounding of three digits.
        expect(toSi(stated!.value, stated!.unit, 'pressure')! / truth, unit.tag).toBeCloseTo(1, 2);
        return [unit.tag];
      }),
    );
    expect(checked).toEqual(['PH-121', 'TW-161', 'TW-161', 'SW-223']);
  });

  it('keep some units to outages, and say what an hour without others costs', () => {
    expect(tagsWhere(({ cleaning }) => cleaning?.inOutageOnly === true)).toEqual([
      'FH-141',
      'DC-211',
      'TL-221',
    ]);
    const costs = units.flatMap(({ cleaning }) => cleaning?.downtimePerHour ?? []);
    expect(costs.filter((cost) => cost > 0).length).toBeGreaterThanOrEqual(4);
    expect(costs).toContain(0);
  });
});

describe.each(ENDS)('the calendars of the demonstration that ends at %d', (end) => {
  const calendars = demoCalendars(end);

  it('are calendars of the contract with a crew that can do the largest job of the site in a week', () => {
    expect(calendars.map(({ site }) => site)).toEqual(DEMO_FLEETS.map(({ site }) => site.name));
    calendars.forEach((calendar, i) => {
      expect(calendarSchema.parse(JSON.parse(JSON.stringify(calendar)))).toEqual(calendar);
      const largest = Math.max(...DEMO_FLEETS[i]!.units.map(({ cleaning }) => cleaning?.crewHours ?? 0));
      expect(calendar.crewHoursPerWeek!).toBeGreaterThanOrEqual(largest);
    });
  });

  it('limit the crew of every outage to come, and name pairs of units of one site', () => {
    calendars.forEach(({ outages, notTogether }, i) => {
      const tags = DEMO_FLEETS[i]!.units.map(({ tag }) => tag);
      expect(notTogether.length).toBeGreaterThan(0);
      for (const pair of notTogether) for (const tag of pair) expect(tags).toContain(tag);
      const coming = outages.filter(({ from }) => Date.parse(from) > end);
      expect(coming.length).toBeGreaterThanOrEqual(2);
      for (const { crewHours } of coming) expect(crewHours).toBeGreaterThan(0);
    });
  });
});
