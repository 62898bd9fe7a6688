import { describe, expect, it } from 'vitest';
import { fleetCostsSchema } from '@/lib/contract/costs';
import { costsCsv } from '@/lib/report/energy/costs-csv';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import { fleetCosts } from '@/lib/report/energy/fleet-costs';
import { costTotals } from '@/lib/report/energy/totals';
import type { SupplyRecord } from '@/lib/report/records';
import { dayNumber } from '@/lib/time/calendar-day';
import { QUAY } from '../../support/fleet-records';
import { HILL, type LosingStory, losingFleet } from '../../support/loss-records';

const MWH = 3.6e9;

function gasAt(from: string, amount: number): SupplyRecord {
  return {
    id: 1,
    siteId: QUAY.id,
    supply: 'gas',
    fromDay: dayNumber(from),
    price: { amount, per: 'MW.h' },
    carbon: { kg: 200, per: 'MW.h' },
    givenBy: null,
    note: null,
    createdAt: 0,
  };
}

// Worked by hand. A-1 loses 100 kW, 2.4 MWh a day, made up by a boiler of 80 % on gas: 3 MWh of gas a day, at 50 €/MWh and
// from 16 Nov 2026 at 80. B-1 loses 50 kW, 1.2 MWh a day, made up by a chiller of COP 4: 0.3 MWh a day at 1200 SEK/MWh.
const BOILER: LosingStory = {
  tag: 'A-1',
  service: 'Preheater',
  kW: 100,
  energy: { effect: 'heating', supply: 'gas', efficiency: 0.8 },
};
const CHILLER: LosingStory = {
  tag: 'B-1',
  site: HILL,
  kW: 50,
  energy: { effect: 'cooling', price: { amount: 1200, per: 'MW.h' }, efficiency: 4 },
};

const fleet = losingFleet([BOILER, CHILLER]);
fleet.supplies = [gasAt('2025-01-01', 50), gasAt('2026-11-16', 80)];
const costsOf = (params: Record<string, string>) => fleetCosts(fleet, readEnergyAddress(params));

describe('what fouling cost in a period', () => {
  const costs = costsOf({});

  it('adds up day by day, each at the price of its day', () => {
    expect([costs.from, costs.to]).toEqual(['2026-10-27', '2026-11-25']);
    const [boiler, chiller] = costs.units;
    // 20 days to 15 Nov at 50 and 10 from 16 Nov at 80: 60 · 50 + 30 · 80 = 5,400 €; 30 · 3 MWh · 200 kg = 18 t.
    expect(boiler).toMatchObject({ days: 30, bridgedDays: 0, unpricedDays: 0, reason: null });
    expect(boiler!.energyLost! / MWH).toBeCloseTo(72, 9);
    // 72 MWh over a boiler of 80 %: 90 MWh of gas.
    expect(boiler!.energyBought! / MWH).toBeCloseTo(90, 9);
    expect(boiler!.money).toBeCloseTo(5400, 6);
    expect(boiler!.carbon).toBeCloseTo(18_000, 6);
    // 30 · 0.3 MWh · 1200 = 10,800 SEK, and no factor to say what it emits.
    expect(chiller!.energyLost! / MWH).toBeCloseTo(36, 9);
    // 36 MWh over a COP of 4: 9 MWh of electricity.
    expect(chiller!.energyBought! / MWH).toBeCloseTo(9, 9);
    expect(chiller!.money).toBeCloseTo(10_800, 6);
    expect(chiller!.carbon).toBeNull();
  });

  it('sets the same number of days before beside it', () => {
    expect(costs.before).toEqual({ from: '2026-09-27', to: '2026-10-26' });
    // 30 days at 50: 90 · 50.
    expect(costs.units[0]!.before.money).toBeCloseTo(4500, 6);
    expect(costs.sites[0]!.before.money).toBeCloseTo(4500, 6);
  });

  it('adds energy of all sites, and never money of two currencies', () => {
    const { now, byCurrency } = costTotals(costs);
    expect(now.energyLost! / MWH).toBeCloseTo(108, 9);
    expect(now.energyBought! / MWH).toBeCloseTo(99, 9);
    expect(byCurrency.map(({ currency, now: own }) => [currency, own.money])).toEqual([
      ['EUR', expect.closeTo(5400, 6)],
      ['SEK', expect.closeTo(10_800, 6)],
    ]);
  });

  it('answers in the form of the contract', () => {
    expect(() => fleetCostsSchema.strict().parse(costs)).not.toThrow();
  });

  it('takes one site alone where asked, and refuses one that is not there', () => {
    const own = costsOf({ site: 'Hill' });
    expect(own.units.map(({ tag }) => tag)).toEqual(['B-1']);
    expect(own.sites.map(({ site }) => site)).toEqual(['Hill']);
    expect(() => costsOf({ site: 'Nowhere' })).toThrow('no site "Nowhere"');
  });
});

describe('month by month', () => {
  it('cuts at calendar months of the site’s own days and marks the month of today', () => {
    const months = costsOf({}).months.filter(({ site }) => site === 'Quay');
    expect(months.at(-1)).toMatchObject({ month: '2026-11', days: 25, isComplete: false });
    expect(months.at(-2)).toMatchObject({ month: '2026-10', days: 31, isComplete: true });
    // November: 15 days at 50, 10 at 80: 45 · 50 + 30 · 80; October: 31 · 3 · 50.
    expect(months.at(-1)!.money).toBeCloseTo(4650, 6);
    expect(months.at(-2)!.money).toBeCloseTo(4650, 6);
    expect(months.at(-2)!.energyLost! / MWH).toBeCloseTo(74.4, 9);
  });

  it('has no month before the record, and marks the one in which it begins', () => {
    const short = losingFleet([{ ...CHILLER, days: 40 }]);
    const months = fleetCosts(short, readEnergyAddress({})).months;
    // 40 days to 25 Nov begin on 17 Oct.
    expect(months.map(({ month, days, isComplete }) => [month, days, isComplete])).toEqual([
      ['2026-10', 15, false],
      ['2026-11', 25, false],
    ]);
  });

  it('goes by the day of the first site: late on 30 Nov in UTC it is December in Helsinki', () => {
    const late = losingFleet([CHILLER], [HILL]);
    late.now = Date.UTC(2026, 10, 30, 22, 30);
    const { to, months } = fleetCosts(late, readEnergyAddress({ period: 'this-month' }));
    expect(to).toBe('2026-12-01');
    expect(months.at(-1)!.month).toBe('2026-12');
  });
});

describe('what cannot be counted', () => {
  const partly = losingFleet([
    BOILER,
    { tag: 'A-2', kW: 10, energy: { effect: 'recovery' } },
    { tag: 'A-3', kW: 10, silentDays: 40, energy: BOILER.energy },
    { tag: 'A-4', kW: 10 },
  ]);
  partly.supplies = [gasAt('2026-11-16', 80)];
  partly.units[3]!.trend = null;
  const costs = fleetCosts(partly, readEnergyAddress({}));

  it('says why, unit by unit, and counts nothing as zero', () => {
    expect(costs.units.map(({ tag, reason, money, energyLost }) => [tag, reason, money, energyLost])).toEqual(
      [
        ['A-1', null, expect.closeTo(2400, 6), expect.closeTo(72 * MWH, -3)],
        ['A-2', 'no-price', null, expect.closeTo(7.2 * MWH, -3)],
        ['A-3', 'no-figures', null, null],
        ['A-4', 'never-analysed', null, null],
      ],
    );
  });

  it('counts days before the first price as unpriced, not as free', () => {
    expect(costs.units[0]).toMatchObject({ days: 30, unpricedDays: 20 });
    expect(costs.sites[0]).toMatchObject({ units: 2, days: 60, unpricedDays: 50 });
    expect(costs.sites[0]!.money).toBeCloseTo(2400, 6);
  });

  it('gives a site without units no sum at all', () => {
    expect(costs.sites[1]).toMatchObject({ site: 'Hill', units: 0, energyLost: null, money: null, days: 0 });
    const empty = fleetCosts(losingFleet([]), readEnergyAddress({}));
    expect(empty).toMatchObject({ asOf: null, units: [], months: [], cleanings: [], planned: [] });
    expect(() => fleetCostsSchema.strict().parse(empty)).not.toThrow();
  });

  it('counts no heat where an outlet is held', () => {
    const held = fleetCosts(losingFleet([{ ...CHILLER, held: 'cold' }]), readEnergyAddress({}));
    expect(held.units[0]).toMatchObject({ energyLost: 0, heldOutlet: 'cold', days: 30 });
  });
});

describe('the file', () => {
  it('has a row for each unit, site and month, and no text that a spreadsheet would run', () => {
    const costs = fleetCosts(losingFleet([{ ...CHILLER, tag: '=B-1', days: 40 }]), readEnergyAddress({}));
    const lines = costsCsv(costs).trim().split('\r\n');
    expect(lines[0]).toContain(
      'energy_lost[MW.h],energy_lost_uncertainty[MW.h],extra_pumping[MW.h],energy_bought[MW.h],energy_bought_uncertainty[MW.h],money',
    );
    expect(lines[1]).toBe("unit,'=B-1,,Hill,cooling,2026-10-27,2026-11-25,SEK,36,,,9,,10800,,,30,0,0,0,");
    expect(lines.map((line) => line.split(',')[0])).toEqual([
      'kind',
      'unit',
      'site',
      'site',
      'month',
      'month',
    ]);
    expect(lines[4]).toContain('2026-10-01,2026-10-31,SEK,18,');
    expect(lines[5]).toMatch(/incomplete$/);
  });
});
