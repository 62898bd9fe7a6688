import { describe, expect, it } from 'vitest';
import type { Widening } from '@/lib/core/pipeline/unit-trend';
import { DEFAULT_FLEET_ADDRESS, readFleetAddress, writeFleetAddress } from '@/lib/report/fleet-address';
import { fleetCsvHead, fleetCsvRows } from '@/lib/report/fleet-csv';
import { groupRows } from '@/lib/report/fleet-order';
import { displayUnit } from '@/lib/report/format/display-unit';
import type { SiteRecord } from '@/lib/report/records';
import { chooseRows } from '../support/choose-rows';
import { dailyOf, fleetOf, NOW, QUAY, type Story, TODAY } from '../support/fleet-records';
import { fleetViewOf } from '../support/fleet-view-of';

const DAY_MS = 86_400_000;
const HILL: SiteRecord = { id: 2, name: 'Hill', timeZone: 'Europe/Helsinki', currency: 'SEK' };
const STORIES: Story[] = [
  { tag: 'B-10', service: 'Wash heater', cleanBy: [100, 120, 150], perDay: 10, lostDuty: 10_000 },
  {
    tag: 'B-2',
    service: 'Wash heater',
    state: 'near-limit',
    cleanBy: [2, 10, 22],
    perDay: 40,
    lostDuty: 20_000,
  },
  {
    tag: 'A-1',
    state: 'over-limit',
    cleaned: [150],
    crossedDaysAgo: 24,
    cleanBy: [-30, -24, -20],
    perDay: 90,
    lostDuty: 31_000,
  },
  { tag: 'C-3', state: 'no-data', silentDays: 40, usable: 0, lostDuty: null, perDay: null },
  { tag: 'D-4', cleanBy: [400, null, null], withinHorizon: 0.3, perDay: 5, lostDuty: 2_000 },
];
const view = fleetViewOf(fleetOf(STORIES), DEFAULT_FLEET_ADDRESS, 'si');
const rowOf = (tag: string, from = view) => from.rows.find((row) => row.tag === tag)!;
const order = (sort: 'clean-by' | 'money' | 'health' | 'tag') =>
  chooseRows(view.rows, { ...DEFAULT_FLEET_ADDRESS, sort }).map((row) => row.tag);

/** Heights of all points of a path of `M x y` and relative `l dx dy`. */
function heightsOf(path: string): number[] {
  let height = 0;
  return [...path.matchAll(/([Ml])(-?\d+) ?(-?\d+)/g)].map(([, command, , down]) => {
    height = command === 'M' ? Number(down) : height + Number(down);
    return height;
  });
}

describe('the fleet page', () => {
  it('says in one sentence what must be looked at and what the fleet wastes', () => {
    expect(view.summary).toEqual([
      '1 over its limit, 1 reaches it within 30 days, 1 without data',
      'the 4 with figures waste 63.0 kW, 145\u00a0€ per day',
    ]);
  });

  it('says of a calm fleet that nobody need look', () => {
    const calm = fleetViewOf(
      fleetOf([{ tag: 'B-10', cleanBy: [100, 120, 150] }]),
      DEFAULT_FLEET_ADDRESS,
      'si',
    );
    expect(calm.summary[0]).toBe('none over its limit, none reaches it within 30 days');
  });

  it('keeps money of different currencies apart', () => {
    const mixed = fleetViewOf(
      fleetOf([{ tag: 'B-10' }, { tag: 'H-1', site: HILL }], [QUAY, HILL]),
      DEFAULT_FLEET_ADDRESS,
      'si',
    );
    expect(mixed.currency).toBeNull();
    expect(mixed.summary[1]).toBe('the fleet wastes 60.0 kW, 60\u00a0€ per day, 60\u00a0SEK per day');
  });

  it('gives a clean-by day with its spread, and never a bare day', () => {
    expect(rowOf('B-10').cleanBy).toEqual({
      main: '25 Mar 2027',
      detail: '−20 / +30 days',
      isProjected: true,
    });
  });

  it('says since when a unit is over its limit, or without data and why', () => {
    expect(rowOf('A-1').cleanBy).toMatchObject({
      main: 'since 1 Nov 2026',
      detail: 'over limit for 24 days',
    });
    expect(rowOf('C-3').cleanBy).toMatchObject({
      main: 'no data since 16 Oct 2026',
      detail: 'a sensor is frozen',
    });
    expect(rowOf('C-3').used).toBeNull();
    expect(rowOf('C-3').lostDuty).toBeNull();
  });

  it('says "not within the horizon" with its chance instead of a day', () => {
    expect(rowOf('D-4').cleanBy).toMatchObject({
      main: 'not within 24 months',
      detail: '30 % chance that it is',
    });
  });

  it('tells a unit without readings from one whose data stopped', () => {
    const records = fleetOf([{ tag: 'N-1' }]);
    records.units[0]!.trend = null;
    records.units[0]!.daily = dailyOf({ tag: 'N-1', recordDays: 0 });
    const row = fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').rows[0]!;
    expect(row.cleanBy.main).toBe('no readings yet');
    expect(row.state).toBe('no-data');
    expect(row.trace).toEqual({ solid: '', dashed: '' });
  });
});

describe('a row of the fleet', () => {
  it('lies on the axis from twelve months back to nine ahead, months named and January by its year', () => {
    expect(view.span).toBe('25 Nov 2025 to 25 Aug 2027');
    expect(view.months.map((month) => month.label).slice(0, 3)).toEqual(['Dec', '2026', 'Feb']);
    expect(view.now).toBeCloseTo((365 + 10 / 24) / (365 + 273), 6);
  });

  it('has its bar from P10 to P90 with the tick at P50', () => {
    const days = 365 + 273;
    const { bar } = rowOf('B-10');
    expect(bar).toMatchObject({ isOpen: false, isPast: false });
    expect(bar!.from).toBeCloseTo((365 + 100) / days, 3);
    expect(bar!.tick).toBeCloseTo((365 + 120) / days, 3);
    expect(bar!.to).toBeCloseTo((365 + 150) / days, 3);
  });

  it('over its limit has the bar from the crossing to now, and no projection', () => {
    const { bar, band } = rowOf('A-1');
    expect(bar).toMatchObject({ isPast: true, tick: null, to: expect.closeTo(view.now, 3) });
    expect(band).toBeNull();
  });

  it('leaves the bar open where P90 lies beyond the horizon, and without bar where P10 lies beyond the axis', () => {
    const open = fleetViewOf(fleetOf([{ tag: 'O-1', cleanBy: [40, 90, null] }]), DEFAULT_FLEET_ADDRESS, 'si')
      .rows[0]!;
    expect(open.bar).toMatchObject({ isOpen: true, to: 1 });
    expect(open.cleanBy.detail).toBe('−50 / open days');
    expect(rowOf('D-4').bar).toBeNull();
  });

  it('without data has a hatched stretch from its last figure and the cause in words', () => {
    expect(rowOf('C-3').absence).toMatchObject({ text: 'a sensor is frozen since 16 Oct' });
    expect(rowOf('C-3').absence!.from).toBeCloseTo((365 - 40) / 638, 2);
    expect(rowOf('B-10').absence).toBeNull();
  });

  it('breaks its line at cleanings and at gaps, and dashes it where few readings are usable', () => {
    const strokes = (path: string) => path.split('M').length - 1;
    const whole = fleetViewOf(fleetOf([{ tag: 'S-1', cleaned: [60, 200] }]), DEFAULT_FLEET_ADDRESS, 'si')
      .rows[0]!;
    expect(strokes(whole.trace.solid)).toBe(3);
    expect(whole.trace.dashed).toBe('');
    const records = fleetOf([{ tag: 'S-1', cleaned: [60, 200] }]);
    records.units[0]!.daily.foulingResistance.fill(Number.NaN, 100, 130);
    expect(strokes(fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').rows[0]!.trace.solid)).toBe(4);
    const poor = fleetViewOf(fleetOf([{ tag: 'P-1', usable: 0.2 }]), DEFAULT_FLEET_ADDRESS, 'si').rows[0]!;
    expect(poor.trace.solid).toBe('');
    expect(poor.trace.dashed).not.toBe('');
  });

  it('marks recorded cleanings, and those still to come as planned', () => {
    const records = fleetOf([{ tag: 'S-1', cleaned: [60] }]);
    records.units[0]!.cleanings.push({
      id: 9,
      at: NOW + 30 * DAY_MS,
      revision: 0,
      durationMs: null,
      method: null,
      cost: null,
      note: null,
    });
    const marks = fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').rows[0]!.cleanings;
    expect(marks.map(({ isPlanned, words }) => [isPlanned, words])).toEqual([
      [false, 'cleaned 26 Sep 2026, hot wash'],
      [true, 'planned cleaning 25 Dec 2026'],
    ]);
  });

  it('marks dated work on the row of its unit, in words too', () => {
    const records = fleetOf([{ tag: 'S-1' }, { tag: 'S-2' }]);
    const { id } = records.units[1]!.record;
    records.planned = [
      {
        ...{ id: 5, planId: 1, unitId: id, tag: 'S-2', site: 'Quay', crewHours: 8, cost: 100, saves: 900 },
        ...{ reason: 'pays', calendarId: 'x@cleanby', revision: 0, state: 'open', cleaningId: null },
        ...{ changedAt: NOW, changedBy: null, note: null, method: 'jetting', outage: 'Winter stop' },
        from: NOW + 30 * DAY_MS,
        to: NOW + 31 * DAY_MS,
      },
    ];
    const { rows } = fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si');
    const planned = rows.map(({ cleanings }) => cleanings.filter(({ isPlanned }) => isPlanned));
    const words = 'planned cleaning 25 Dec 2026 in Winter stop, jetting';
    expect(planned[0]).toEqual([]);
    expect(planned[1]).toMatchObject([{ words }]);
    expect(planned[1]![0]!.at).toBeGreaterThan(fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').now);
    expect(rows[1]!.sentence).toContain(words);
  });

  it('keeps at most 300 points of line, and its highest day', () => {
    const story: Story = { tag: 'L-1', recordDays: 540, cleaned: [60] };
    const records = fleetOf([story]);
    records.units[0]!.daily.foulingResistance[333] = 9e-4;
    const row = fleetViewOf(records, { back: 18, ahead: 9 }, 'si').rows[0]!;
    expect(row.trace.solid.match(/[Ml]/g)!.length).toBeLessThanOrEqual(310);
    expect(Math.min(...heightsOf(row.trace.solid))).toBeLessThan(-50);
  });

  it('marks falls that nobody has explained apart from cleanings, and says them in its sentence', () => {
    const records = fleetOf([{ tag: 'S-1' }]);
    const fall = { earliest: 0, latest: 0, before: 3e-4, after: 1e-4, fall: 2e-4, fallUncertainty: 1e-5 };
    records.units[0]!.trend!.probableCleanings = [
      { ...fall, day: TODAY - 30, share: 0.5 },
      { ...fall, day: TODAY - 900, share: null },
    ];
    const row = fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').rows[0]!;
    expect(row.probable).toEqual([
      {
        at: expect.closeTo((365 - 30) / 638, 3),
        words:
          'probable cleaning 26 Oct 2026: the fouling fell by 50 % of the allowance, and nobody has said why',
      },
    ]);
    expect(row.sentence).toContain('; probable cleaning 26 Oct 2026');
    expect(row.cleanings).toHaveLength(1);
  });

  it('says since when its data are suspect, once: not where the cause of poor data stands already', () => {
    const suspectIn = (story: Story, agoDays: number | null) => {
      const records = fleetOf([story]);
      records.units[0]!.trend!.health.suspectSinceDay = agoDays === null ? null : TODAY - agoDays;
      return fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').rows[0]!;
    };
    const row = suspectIn({ tag: 'S-1' }, 60);
    expect(row.suspect).toEqual({
      at: expect.closeTo((365 - 60) / 638, 3),
      words: 'data suspect since 26 Sep',
    });
    expect(row.sentence).toContain('; data suspect since 26 Sep');
    expect(row.state).toBe('fouling');
    expect(suspectIn({ tag: 'S-1' }, 900).suspect!.at).toBe(0);
    expect(suspectIn({ tag: 'S-1' }, null).suspect).toBeNull();
    expect(suspectIn({ tag: 'S-1', usable: 0.3 }, 60).suspect).toBeNull();
    expect(suspectIn({ tag: 'S-1', state: 'no-data', silentDays: 40, usable: 0 }, 60).suspect).toBeNull();
  });

  it('says whose record spreads its band, only where one does and a day is projected', () => {
    const widenedIn = (story: Story, widening: Widening) => {
      const records = fleetOf([story]);
      records.units[0]!.trend!.widening = widening;
      return fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').rows[0]!.widened;
    };
    const fleet = { factor: 1.31, from: 'fleet', count: 96 } as const;
    expect(widenedIn({ tag: 'S-1' }, fleet)).toBe(
      'P10 and P90 spread 1.3 times, as 96 past projections of the fleet ask for',
    );
    expect(widenedIn({ tag: 'S-1' }, { ...fleet, factor: 1 })).toBeNull();
    expect(widenedIn({ tag: 'S-1' }, { factor: 1, from: 'none', count: 4 })).toBeNull();
    expect(widenedIn({ tag: 'S-1', state: 'over-limit', crossedDaysAgo: 3 }, fleet)).toBeNull();
  });

  it('shows outages of its own site only, cut to the axis', () => {
    const records = fleetOf(STORIES);
    records.outages = [
      {
        id: 1,
        siteId: 1,
        name: 'December stop',
        from: NOW + 20 * DAY_MS,
        to: NOW + 34 * DAY_MS,
        crewHours: null,
      },
      {
        id: 2,
        siteId: 1,
        name: 'Long ago',
        from: NOW - 900 * DAY_MS,
        to: NOW - 890 * DAY_MS,
        crewHours: null,
      },
    ];
    const bands = fleetViewOf(records, DEFAULT_FLEET_ADDRESS, 'si').outages;
    expect(bands.map((band) => [band.site, band.words])).toEqual([
      ['Quay', 'December stop, 15 Dec 2026 to 29 Dec 2026'],
    ]);
  });

  it('of a large fleet is small enough to travel by the hundred', () => {
    const [unit] = fleetOf([{ tag: 'M-1' }]).units;
    const units = Array.from({ length: 1_001 }, () => unit!);
    const big = fleetViewOf({ ...fleetOf([]), units }, DEFAULT_FLEET_ADDRESS, 'si');
    expect(JSON.stringify(big.rows[0]).length).toBeLessThan(1_800);
    expect(JSON.stringify(view.rows[0]).length).toBeLessThan(6_000);
  });
});

describe('order of the fleet', () => {
  it('by clean-by day: over the limit, then soonest, then without data, then not within the horizon', () => {
    expect(order('clean-by')).toEqual(['A-1', 'B-2', 'B-10', 'C-3', 'D-4']);
  });

  it('by money, by data health worst first, and by tag with numbers in their order', () => {
    expect(order('money')).toEqual(['A-1', 'B-2', 'B-10', 'D-4', 'C-3']);
    expect(order('health')[0]).toBe('C-3');
    expect(order('tag')).toEqual(['A-1', 'B-2', 'B-10', 'C-3', 'D-4']);
  });

  it('finds by every word in tag, service or site, and filters by state and site', () => {
    const chosen = (change: object) =>
      chooseRows(view.rows, { ...DEFAULT_FLEET_ADDRESS, ...change }).map((row) => row.tag);
    expect(chosen({ find: 'wash b-1' })).toEqual(['B-10']);
    expect(chosen({ find: 'QUAY' })).toHaveLength(5);
    expect(chosen({ states: ['over-limit', 'no-data'] })).toEqual(['A-1', 'C-3']);
    expect(chosen({ site: 'Elsewhere' })).toEqual([]);
  });

  it('groups stand in the order of their first row, and ranks run on', () => {
    const items = groupRows(chooseRows(view.rows, DEFAULT_FLEET_ADDRESS), 'service');
    expect(items.map((item) => (item.kind === 'group' ? item.name : `${item.rank} ${item.row.tag}`))).toEqual(
      ['no service stated', '1 A-1', '2 C-3', '3 D-4', 'Wash heater', '4 B-2', '5 B-10'],
    );
  });
});

describe('the fleet’s address', () => {
  it('goes out and comes back the same, defaults left out and others’ parameters kept', () => {
    const address = readFleetAddress({
      back: '18',
      state: 'no-data,over-limit,nonsense',
      find: 'wash',
      sort: 'money',
    });
    expect(address).toMatchObject({ back: 18, ahead: 9, states: ['over-limit', 'no-data'], sort: 'money' });
    const written = writeFleetAddress(address, new URLSearchParams('units=us'));
    expect(written.get('units')).toBe('us');
    expect(readFleetAddress(Object.fromEntries(written))).toEqual(address);
    expect(writeFleetAddress(DEFAULT_FLEET_ADDRESS, written).toString()).toBe('units=us');
  });

  it('takes defaults for what it cannot read', () => {
    expect(readFleetAddress({ back: '7', sort: 'x', view: ['table', 'axis'], site: '' })).toEqual({
      ...DEFAULT_FLEET_ADDRESS,
      view: 'table',
    });
  });
});

describe('the fleet as CSV', () => {
  const lines = (stories: Story[]) => {
    const { rows } = fleetViewOf(fleetOf(stories), DEFAULT_FLEET_ADDRESS, 'us');
    const lostUnit = displayUnit('power', 'us');
    return (fleetCsvHead(lostUnit) + fleetCsvRows(rows, lostUnit)).split('\r\n');
  };

  it('has the unit of measure in its head and ISO days', () => {
    const [head, first] = lines([{ tag: 'B-10', lostDuty: 293_071.07, cleanBy: [100, 120, 150] }]);
    expect(head).toContain('lost_duty[10*3.[Btu_IT]/h]');
    expect(first).toContain(',2027-03-05,2027-03-25,2027-04-24,');
    expect(first).toContain(',1000,');
  });

  it('disarms texts a spreadsheet would run as a formula', () => {
    expect(lines([{ tag: 'B-10', service: '=HYPERLINK("x")' }])[1]).toContain(`"'=HYPERLINK(""x"")"`);
  });
});
