import { describe, expect, it } from 'vitest';
import { type PlanResult, planRequestSchema } from '@/lib/contract/plan';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import { energyView } from '@/lib/report/energy/energy-view';
import { monthView } from '@/lib/report/energy/month-view';
import { ofSite } from '@/lib/report/energy/of-site';
import { plannedView } from '@/lib/report/energy/planned-view';
import type { AcceptedPlan } from '@/lib/report/plan/planning';
import type { FleetRecords } from '@/lib/report/records';
import { QUAY, TODAY } from '../../support/fleet-records';
import { HILL, type LosingStory, losingFleet } from '../../support/loss-records';

const energy = {
  effect: 'heating',
  price: { amount: 50, per: 'MW.h' },
  carbon: { kg: 200, per: 'MW.h' },
} as const;
const ADDRESS = readEnergyAddress({});
const viewOf = (stories: LosingStory[], sites = [QUAY]) =>
  energyView(losingFleet(stories, sites), ADDRESS, 'si');
const sheetOf = (fleet: FleetRecords, month: string | null, params: Record<string, string> = {}) =>
  monthView(fleet, { month, address: readEnergyAddress(params) }, 'si');

describe('the answer in a sentence', () => {
  it('names money, energy and CO2e, and what it was before', () => {
    // 30 · 2.4 MWh = 72 MWh, at 50 € and 200 kg each; the record begins 40 days ago: 10 days of the 30 before.
    const { headline } = viewOf([{ tag: 'A-1', kW: 100, days: 40, energy }]);
    expect(headline.main).toBe(
      'Fouling cost 3,600\u00a0€, 200 % more than in the 30 days before, with 10 unit-days counted then and 30 now: 72.0 MWh and 14.4 t CO2e wasted.',
    );
    expect(headline.counted[0]).toBe(
      'Counted: 1 of 1 unit, 30 of 30 unit-days. What is not counted is not taken as zero.',
    );
  });

  it('says as much as before where nothing has changed', () => {
    const { headline } = viewOf([{ tag: 'A-1', kW: 100, energy }]);
    expect(headline.main).toContain('3,600\u00a0€, as much as in the 30 days before:');
  });

  it('gives each currency its own sum', () => {
    const { headline, lists } = viewOf(
      [
        { tag: 'A-1', kW: 100, energy },
        { tag: 'B-1', kW: 100, energy, site: HILL },
      ],
      [QUAY, HILL],
    );
    expect(headline.main).toContain(
      '3,600\u00a0€, as much as in the 30 days before; and 3,600\u00a0SEK, as much',
    );
    expect(headline.figures.map(({ label }) => label)).toEqual([
      'Energy bought in its place',
      'Heat not transferred',
      'Extra pumping',
      'Money, EUR',
      'Money, SEK',
      'CO2e',
    ]);
    expect(lists.map(({ currency, rows }) => [currency, rows.length])).toEqual([
      ['EUR', 1],
      ['SEK', 1],
    ]);
  });

  it('owns up to what cannot be told: no figures, no price', () => {
    expect(viewOf([{ tag: 'A-1', kW: 100, silentDays: 40, energy }]).headline.main).toMatch(
      /^No day of this period/,
    );
    const { headline } = viewOf([{ tag: 'A-1', kW: 100, energy: { effect: 'recovery' } }]);
    expect(headline.main).toBe('Fouling wasted 72.0 MWh; no price says what that is worth.');
    expect(headline.counted[1]).toBe('30 unit-days have energy but no price and are in no sum of money.');
  });
});

describe('where it is lost', () => {
  const { lists, uncounted, byEffect } = viewOf([
    { tag: 'A-1', kW: 10, energy },
    { tag: 'A-2', kW: 60, energy },
    { tag: 'A-3', kW: 30, energy: { ...energy, effect: 'recovery' } },
    { tag: 'A-4', kW: 5 },
    { tag: 'A-5', kW: -3, energy },
    { tag: 'A-6', kW: 5, silentDays: 40, energy },
    { tag: 'A-7', kW: 50, energy, held: 'cold' },
  ]);

  it('puts the dearest unit first, each with the way to its working', () => {
    expect(lists[0]!.rows.map(({ tag, money, cumulative, href }) => [tag, money, cumulative, href])).toEqual([
      ['A-2', '2,160\u00a0€', '60 %', '/units/A-2/cost'],
      ['A-3', '1,080\u00a0€', '90 %', '/units/A-3/cost'],
      ['A-1', '360\u00a0€', '100 %', '/units/A-1/cost'],
    ]);
    expect(lists[0]!.sentence).toBe('2 of 5 units make 80 %.');
  });

  it('lists every other unit with why it is not among them', () => {
    expect(uncounted.map(({ tag, why }) => [tag, why])).toEqual([
      ['A-4', 'no price of its energy: 3.60 MWh of heat not transferred'],
      ['A-5', 'no loss: as clean as its reference, or cleaner'],
      ['A-6', 'no day with figures in this period'],
      ['A-7', 'cold outlet held: extra flow not known, no heat lost, extra pumping not known'],
    ]);
  });

  it('tells heating, cooling and recovery apart', () => {
    expect(byEffect.map(({ name, units }) => [name, units])).toEqual([
      ['heating', '4 of 5'],
      ['heat recovery', '1'],
      ['effect not stated in the datasheet', '1'],
    ]);
  });
});

describe('the months', () => {
  it('stand on one scale from zero, the month of today hollow and marked', () => {
    const { months } = viewOf([{ tag: 'A-1', kW: 100, days: 90, energy }]);
    // 90 days to 25 Nov: 4 of August, then 30, 31 and 25.
    expect(months.rows.map(({ name, days }) => [name, days])).toEqual([
      ['Aug 2026, incomplete', '4'],
      ['Sep 2026', '30'],
      ['Oct 2026', '31'],
      ['Nov 2026, incomplete', '25'],
    ]);
    const [energyBars, moneyBars] = months.series;
    expect(energyBars!.bars.map(({ height, isComplete }) => [height.toFixed(3), isComplete])).toEqual([
      [(4 / 31).toFixed(3), false],
      [(30 / 31).toFixed(3), true],
      ['1.000', true],
      [(25 / 31).toFixed(3), false],
    ]);
    expect(moneyBars!.bars.at(-1)!.label).toBe('3.0k');
    expect(moneyBars!.sentence).toContain('the most in Oct 2026: 3.7k');
  });
});

describe('what is planned', () => {
  const result = {
    from: '2026-11-26',
    to: '2027-11-24',
    currency: 'EUR',
    cost: { cleaning: 5000, downtime: 0, loss: 15_000, total: 20_000 },
    compared: {
      allAtNextOutage: { total: 26_000, cost: null, cleanings: 9, broken: ['E-1 past its limit', 'crew'] },
      fixedInterval: { total: null, cost: null, cleanings: 0, broken: ['no place for E-2'], days: 90 },
      noCleaning: { total: 60_000, beyondLimit: 2 },
    },
  } as unknown as PlanResult;
  const ofQuay: AcceptedPlan = {
    id: 1,
    acceptedAt: (TODAY - 2) * 86_400_000,
    acceptedBy: 'planner',
    note: null,
    request: planRequestSchema.parse({ site: 'Quay' }),
    result,
  };
  const planned = [
    {
      tag: 'A-1',
      site: 'Quay',
      from: '2026-12-10T08:00:00+00:00',
      outage: null,
      currency: 'EUR',
      cost: 2000,
      saves: 7000,
    },
    {
      tag: 'A-2',
      site: 'Quay',
      from: '2027-01-10T08:00:00+00:00',
      outage: 'Winter',
      currency: 'EUR',
      cost: 3000,
      saves: 1000,
    },
  ];

  it('is said to be projected, against cost and against the two plain rules', () => {
    const { sentences, comparison, rows } = plannedView(
      { planned },
      { acceptedPlans: [ofQuay], sites: [QUAY] },
    );
    expect(sentences).toEqual(['2 cleanings are planned, which cost 5,000\u00a0€ with downtime.']);
    expect(comparison).toEqual([
      'The plan of Quay, accepted on 23 Nov 2026, is projected to cost 20,000\u00a0€ in all, cleaning, downtime and loss together, 26 Nov 2026 to 23 Nov 2027: 40,000\u00a0€ less than the loss of 60,000\u00a0€ expected without any cleaning.',
      'Cleaning everything at the next outage is projected to cost 26,000\u00a0€: 6,000\u00a0€ more than the plan, and would break 2 constraints.',
      'Cleaning at a fixed interval of 90 days cannot be done: no place for E-2.',
    ]);
    expect(rows.map(({ tag, when, outage, saves }) => [tag, when, outage, saves])).toEqual([
      ['A-1', '10 Dec 2026', 'outside outages', '7,000\u00a0€'],
      ['A-2', '10 Jan 2027', 'Winter', '1,000\u00a0€'],
    ]);
  });

  it('compares the plan of each site by itself, and only that of the site asked for', () => {
    const ofHill = {
      ...ofQuay,
      request: { ...ofQuay.request, site: 'Hill' },
      result: { ...result, currency: 'USD', cost: { ...result.cost, total: 900 } },
    };
    const plans = { acceptedPlans: [ofHill, ofQuay], sites: [QUAY, HILL] };
    const { comparison } = plannedView({ planned }, plans);
    const heads = comparison.filter((sentence) => sentence.startsWith('The plan'));
    expect(heads.map((sentence) => sentence.slice(0, sentence.indexOf(' in all')))).toEqual([
      'The plan of Hill, accepted on 23 Nov 2026, is projected to cost 900\u00a0$',
      'The plan of Quay, accepted on 23 Nov 2026, is projected to cost 20,000\u00a0€',
    ]);
    const fleet = { ...losingFleet([], [QUAY, HILL]), ...plans };
    expect(ofSite(fleet, 'Hill').acceptedPlans).toEqual([ofHill]);
    const everywhere = { ...ofQuay, request: planRequestSchema.parse({}) };
    expect(ofSite({ ...fleet, acceptedPlans: [everywhere] }, 'Hill').acceptedPlans).toEqual([everywhere]);
  });

  it('lists first what saves most, and says where a unit has no price', () => {
    const unpriced = { ...planned[0]!, tag: 'A-3', saves: null };
    const given = { planned: [planned[1]!, unpriced, planned[0]!] };
    const { rows, sentences } = plannedView(given, { acceptedPlans: [], sites: [QUAY] });
    expect(rows.map(({ tag, saves }) => [tag, saves])).toEqual([
      ['A-1', '7,000\u00a0€'],
      ['A-2', '1,000\u00a0€'],
      ['A-3', '– no price'],
    ]);
    expect(sentences).toEqual(['3 cleanings are planned, which cost 7,000\u00a0€ with downtime.']);
  });

  it('is nothing without an accepted plan', () => {
    expect(plannedView({ planned: [] }, { acceptedPlans: [], sites: [QUAY] })).toEqual({
      sentences: [],
      comparison: [],
      rows: [],
    });
  });
});

describe('the sheet of a month', () => {
  const fleet = losingFleet(
    Array.from({ length: 14 }, (_, index) => ({ tag: `A-${index + 1}`, kW: 10 + index, energy })),
    [QUAY],
  );

  it('is that of the last whole month unless another is named that has begun', () => {
    expect(sheetOf(fleet, null)).toMatchObject({ month: '2026-10', isRunning: false });
    for (const wrong of ['2027-01', '2026-13', 'now']) expect(sheetOf(fleet, wrong).month).toBe('2026-10');
    expect(sheetOf(fleet, '2026-11')).toMatchObject({ isRunning: true, laterHref: null });
  });

  it('names the ten dearest units, counts the others, and draws twelve months up to its own', () => {
    const { lists, bars, title, headline } = sheetOf(fleet, '2026-09');
    expect(title).toBe('What fouling cost in Sep 2026');
    expect([lists[0]!.rows.length, lists[0]!.rows[0]!.tag, lists[0]!.others]).toEqual([10, 'A-14', 4]);
    expect(bars[0]!.bars.at(-1)!.month).toBe('2026-09');
    // The record begins on 26 Nov 2025.
    expect(bars[0]!.bars).toHaveLength(11);
    // 30 days of 14 units of 10 to 23 kW: 231 kW · 720 h = 166.32 MWh.
    expect(headline.main).toContain('Fouling cost 8,316\u00a0€');
  });

  it('leads to the months beside it and back, with the site kept', () => {
    const sheet = sheetOf(fleet, '2026-01', { site: 'Quay' });
    expect(sheet.earlierHref).toBe('/energy/month?month=2025-12&site=Quay');
    expect(sheet.laterHref).toBe('/energy/month?month=2026-02&site=Quay');
    expect(sheet.backHref).toBe('/energy?from=2026-01-01&to=2026-01-31&site=Quay');
    expect(() => sheetOf(fleet, null, { site: 'Nowhere' })).toThrow('no site "Nowhere"');
  });
});
