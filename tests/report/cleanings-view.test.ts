import { describe, expect, it } from 'vitest';
import { fleetCleaningsSchema } from '@/lib/contract/fleet-cleanings';
import type { CleaningEffect } from '@/lib/core/cycles/cleaning-result';
import { cleaningTotals } from '@/lib/report/cleanings/cleaning-totals';
import { cleaningsHref, readCleaningsAddress } from '@/lib/report/cleanings/cleanings-address';
import { cleaningsCsv } from '@/lib/report/cleanings/cleanings-csv';
import { cleaningsDocument } from '@/lib/report/cleanings/cleanings-document';
import { cleaningsPeriod } from '@/lib/report/cleanings/cleanings-period';
import { cleaningsView } from '@/lib/report/cleanings/cleanings-view';
import { doneCleanings } from '@/lib/report/cleanings/done-cleaning';
import type { FleetRecords, SiteRecord } from '@/lib/report/records';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import { fleetOf, NOW, QUAY, TODAY } from '../support/fleet-records';

const DAY_MS = 86_400_000;
const HILL: SiteRecord = { id: 2, name: 'Hill', timeZone: 'Europe/Helsinki', currency: 'SEK' };
const MWH = 3.6e9;
const ALL = readCleaningsAddress({ period: 'all' });

function effectOf(given: Partial<CleaningEffect> = {}): CleaningEffect {
  return {
    before: 4e-4,
    beforeUncertainty: 1e-5,
    after: 4e-5,
    afterUncertainty: 1e-5,
    recovered: 3.6e-4,
    recoveredUncertainty: 1e-5,
    shareRecovered: 0.9,
    shareRecoveredUncertainty: 0.03,
    isPartial: false,
    dutyRecovered: 1e5,
    energySoFar: 100 * MWH,
    daysCounted: 58,
    daysElapsed: 60,
    daysUntilBack: null,
    ...given,
  };
}

type Done = {
  ago: number;
  method?: string | null;
  cost?: number | null;
  effect?: Partial<CleaningEffect> | null;
  reason?: 'too-few-after';
};
type UnitGiven = { tag: string; site?: SiteRecord; price?: number | null; usualCost?: number; done: Done[] };

/** A fleet with cleanings so many days ago; energy costs 50 per MWh unless said otherwise. */
function fleetWith(units: UnitGiven[]): FleetRecords {
  const fleet = fleetOf(
    units.map(({ tag, site }) => ({ tag, site, cleaned: [] })),
    [QUAY, HILL],
  );
  units.forEach(({ price = 50, usualCost, done }, index) => {
    const unit = fleet.units[index]!;
    const at = (ago: number) => (TODAY - ago) * DAY_MS + 9 * 3_600_000;
    unit.record.unit = {
      ...unit.record.unit,
      ...(price === null ? {} : { energy: { effect: 'heating', price: { amount: price, per: 'MW.h' } } }),
      ...(usualCost === undefined ? {} : { cleaning: { cost: usualCost } }),
    } as typeof unit.record.unit;
    unit.cleanings = done.map(({ ago, method = 'hot wash', cost = 3000 }, id) => ({
      id,
      at: at(ago),
      revision: 0,
      durationMs: 12 * 3_600_000,
      method,
      cost,
      note: null,
    }));
    unit.result = {
      ...unit.result,
      cost: price === null ? null : { currency: unit.record.site.currency },
      // As the analysis says: that energy at the price of its days.
      returned: done.flatMap(({ ago, effect, reason }) =>
        price === null || (effect === null && reason === undefined) || reason !== undefined
          ? []
          : {
              cleanedAt: new Date(at(ago)).toISOString(),
              money: (effectOf(effect ?? {}).energySoFar! / MWH) * price,
              moneyUncertainty: 0,
              paidBackOn: null,
            },
      ),
    } as unknown as typeof unit.result;
    unit.trend!.cleaningResults = done.flatMap(({ ago, effect, reason }) =>
      effect === null && reason === undefined
        ? []
        : {
            at: at(ago),
            localDay: TODAY - ago,
            effect: reason === undefined ? effectOf(effect ?? {}) : null,
            reason: reason ?? null,
          },
    );
  });
  return fleet;
}

const totalsOf = (fleet: FleetRecords) => cleaningTotals(doneCleanings(fleet, cleaningsPeriod(ALL, TODAY)));

describe('whether cleanings paid', () => {
  it('sets what they were worth so far against what they cost, as a floor', () => {
    // 100 MWh at 50 € are 5,000 € against 3,000 €; 20 MWh are 1,000 € against 3,000 €.
    const fleet = fleetWith([
      { tag: 'A-1', done: [{ ago: 60 }] },
      { tag: 'A-2', done: [{ ago: 40, effect: { energySoFar: 20 * MWH } }] },
    ]);
    expect(totalsOf(fleet).money).toEqual([
      { currency: 'EUR', cleanings: 2, paid: 1, worth: 6000, cost: 6000, net: 0 },
    ]);
    const { totals } = cleaningsView(fleet, ALL, 'si');
    expect(totals.main).toBe('2 cleanings of 2 units up to 25 Nov 2026, and 120 MWh not lost since.');
    expect(totals.money).toEqual([
      'Worth at least 6,000\u00a0€ so far, against 6,000\u00a0€ that they cost: just paid. 1 of 2 have paid on their own.',
    ]);
  });

  it('says how much is still to come back', () => {
    const fleet = fleetWith([{ tag: 'A-2', done: [{ ago: 40, effect: { energySoFar: 20 * MWH } }] }]);
    expect(cleaningsView(fleet, ALL, 'si').totals.money).toEqual([
      'Worth at least 1,000\u00a0€ so far, against 3,000\u00a0€ that it cost: at most 2,000\u00a0€ still to come back.',
    ]);
  });

  it('never adds money of two currencies', () => {
    const fleet = fleetWith([
      { tag: 'A-1', done: [{ ago: 60 }] },
      { tag: 'H-1', site: HILL, price: 400, done: [{ ago: 50, cost: 30_000 }] },
    ]);
    expect(totalsOf(fleet).money.map(({ currency, worth }) => [currency, worth])).toEqual([
      ['SEK', expect.closeTo(40_000, 6)],
      ['EUR', expect.closeTo(5000, 6)],
    ]);
  });

  it('names what it does not count: without a result, a price or a cost', () => {
    const fleet = fleetWith([
      { tag: 'A-1', done: [{ ago: 60 }] },
      { tag: 'A-2', price: null, done: [{ ago: 50 }] },
      { tag: 'A-3', done: [{ ago: 45, cost: null }] },
      { tag: 'A-4', done: [{ ago: 2, reason: 'too-few-after' }] },
      { tag: 'A-5', done: [{ ago: 1, effect: null }] },
    ]);
    const { totals, rows } = cleaningsView(fleet, ALL, 'si');
    expect(totalsOf(fleet).money).toMatchObject([{ cleanings: 1 }]);
    expect(totals.leftOut).toEqual([
      '2 cleanings not counted, no result to count: A-5 and A-4.',
      '1 cleaning not counted, no price of energy in the datasheet: A-2.',
      '1 cleaning not counted, no cost written down: A-3.',
    ]);
    expect(rows.map(({ tag, recovered }) => [tag, recovered])).toEqual([
      ['A-5', 'outside the record of readings'],
      ['A-4', 'too few figures since'],
      ['A-3', '90 ± 3 %'],
      ['A-2', '90 ± 3 %'],
      ['A-1', '90 ± 3 %'],
    ]);
  });

  it('takes the usual cost where nobody wrote one down, and says so', () => {
    const fleet = fleetWith([{ tag: 'A-1', usualCost: 2500, done: [{ ago: 60, cost: null }, { ago: 200 }] }]);
    const { rows } = cleaningsView(fleet, ALL, 'si');
    expect(rows.map(({ cost, net, isPaid }) => [cost, net, isPaid])).toEqual([
      ['2,500\u00a0€ (usual)', '+2,500\u00a0€', true],
      ['3,000\u00a0€', '+2,000\u00a0€', true],
    ]);
  });

  it('says of a partial cleaning that it was, and of one hardly needed that the unit was clean', () => {
    const fleet = fleetWith([
      {
        tag: 'A-1',
        done: [
          { ago: 60, effect: { shareRecovered: 0.55, isPartial: true } },
          { ago: 90, effect: { shareRecovered: null, shareRecoveredUncertainty: null, isPartial: null } },
        ],
      },
    ]);
    const { rows } = cleaningsView(fleet, ALL, 'si');
    expect(rows.map(({ recovered }) => recovered)).toEqual(['55 ± 3 %, partial', 'was hardly fouled']);
  });

  it('says nothing of cleanings still to come', () => {
    const fleet = fleetWith([{ tag: 'A-1', done: [{ ago: 60 }, { ago: -30 }] }]);
    expect(totalsOf(fleet).cleanings).toBe(1);
  });
});

describe('the period of the cleanings', () => {
  const at = (today: string, period: string) => {
    const { from, to } = cleaningsPeriod(readCleaningsAddress({ period }), dayNumber(today));
    return [from === null ? null : isoDay(from), isoDay(to)];
  };

  it('is the calendar quarter before today unless asked otherwise', () => {
    expect(at('2026-11-25', '')).toEqual(['2026-07-01', '2026-09-30']);
    expect(at('2026-10-01', 'last-quarter')).toEqual(['2026-07-01', '2026-09-30']);
    expect(at('2026-09-30', 'last-quarter')).toEqual(['2026-04-01', '2026-06-30']);
    expect(at('2026-02-28', 'last-quarter')).toEqual(['2025-10-01', '2025-12-31']);
  });

  it('can be this quarter, a month, a year or everything', () => {
    expect(at('2026-11-25', 'this-quarter')).toEqual(['2026-10-01', '2026-11-25']);
    expect(at('2026-03-31', 'last-month')).toEqual(['2026-02-01', '2026-02-28']);
    expect(at('2026-01-01', 'this-month')).toEqual(['2026-01-01', '2026-01-01']);
    expect(at('2026-11-25', 'last-12-months')).toEqual(['2025-11-26', '2026-11-25']);
    expect(at('2026-11-25', 'all')).toEqual([null, '2026-11-25']);
  });

  it('has its first and last day in it, by the clock of the site', () => {
    const fleet = fleetWith([{ tag: 'H-1', site: HILL, done: [{ ago: 10 }, { ago: 11 }, { ago: 12 }] }]);
    // 23:30 in Helsinki is still the day before in UTC.
    fleet.units[0]!.cleanings[0]!.at = (TODAY - 10) * DAY_MS - 90 * 60_000;
    const from = isoDay(TODAY - 11);
    const to = isoDay(TODAY - 10);
    const period = cleaningsPeriod(readCleaningsAddress({ from, to }), TODAY);
    expect(doneCleanings(fleet, period).map(({ day }) => TODAY - day)).toEqual([10, 11]);
  });

  it('by days stands in the address; what is no day counts as not given', () => {
    const custom = readCleaningsAddress({ from: '2026-02-01', to: '2026-02-28', units: 'us' });
    expect(cleaningsHref(custom)).toBe('/cleanings?from=2026-02-01&to=2026-02-28&units=us');
    expect(cleaningsHref(custom, { period: 'this-month' })).toBe('/cleanings?period=this-month&units=us');
    for (const wrong of [
      { from: '2026-02-30', to: '2026-03-01' },
      { from: '2026-03-02', to: '2026-03-01' },
      { from: '2026-03-02' },
    ])
      expect(readCleaningsAddress(wrong).period).toBe('last-quarter');
  });

  it('without a cleaning says so', () => {
    const { totals, rows } = cleaningsView(
      fleetWith([{ tag: 'A-1', done: [] }]),
      readCleaningsAddress({}),
      'si',
    );
    expect(totals.main).toBe('No cleaning is recorded from 1 Jul 2026 to 30 Sep 2026.');
    expect(rows).toEqual([]);
  });
});

describe('cleaning methods compared', () => {
  const methodsOf = (units: UnitGiven[]) => cleaningsView(fleetWith(units), ALL, 'si').methods;
  const unitsBy = (method: string, shares: number[], prefix: string): UnitGiven[] =>
    shares.map((shareRecovered, index) => ({
      tag: `${prefix}-${index}`,
      done: [{ ago: 100 + index, method, effect: { shareRecovered } }],
    }));

  it('are the same whatever the case of their letters, and those not written down are left out', () => {
    const methods = methodsOf([
      {
        tag: 'A-1',
        done: [
          { ago: 60, method: 'Hot wash' },
          { ago: 160, method: 'hot wash ' },
        ],
      },
      { tag: 'A-2', done: [{ ago: 60, method: null }] },
    ]);
    expect(methods.rows.map(({ method, cleanings, interval }) => [method, cleanings, interval])).toEqual([
      ['Hot wash', '2 of 1 unit', 'too few to tell (2)'],
    ]);
    expect(methods.withoutMethod).toBe(1);
    expect(methods.differences).toEqual([]);
  });

  it('with too few units are not told apart', () => {
    const methods = methodsOf([
      ...unitsBy('hot wash', [0.5, 0.5, 0.5], 'H'),
      ...unitsBy('lance', [0.9, 0.9, 0.9], 'L'),
    ]);
    expect(methods.differences).toEqual([
      'One pair of methods has too few units to be told apart: five cleaned by each are needed.',
    ]);
  });

  it('are told apart only where chance does not explain it', () => {
    const low = [0.5, 0.52, 0.54, 0.56, 0.58, 0.6, 0.55, 0.53];
    const apart = methodsOf([
      ...unitsBy('hot wash', low, 'H'),
      ...unitsBy(
        'lance',
        low.map((x) => x + 0.3),
        'L',
      ),
    ]);
    expect(apart.differences[0]).toMatch(
      /^lance recovers 30 percentage points more than hot wash \(by chance: /,
    );
    const alike = methodsOf([...unitsBy('hot wash', low, 'H'), ...unitsBy('lance', [...low].reverse(), 'L')]);
    expect(alike.differences).toEqual(['Two methods differ by no more than chance explains.']);
  });

  it('keep costs of two currencies apart', () => {
    const { rows } = methodsOf([
      { tag: 'A-1', done: [{ ago: 60, cost: 3000 }] },
      { tag: 'H-1', site: HILL, price: 400, done: [{ ago: 60, cost: 20_000 }] },
    ]);
    expect(rows[0]).toMatchObject({
      cost: '3,000\u00a0€, 20,000\u00a0SEK',
      worthPerCost: '1.7 × (EUR), 2.0 × (SEK)',
    });
  });
});

describe('probable cleanings', () => {
  it('wait for an answer on the page of their unit, the latest first', () => {
    const fleet = fleetWith([{ tag: 'A-1', done: [] }]);
    const fall = { earliest: 0, latest: 0, before: 3e-4, after: 1e-4, fall: 2e-4, fallUncertainty: 1e-5 };
    fleet.units[0]!.trend!.probableCleanings = [
      { ...fall, day: TODAY - 90, share: 0.5 },
      { ...fall, day: TODAY - 9, share: null },
    ];
    const { probable } = cleaningsView(fleet, ALL, 'si');
    expect(probable.map(({ day, fell, share }) => [day, fell, share])).toEqual([
      ['16 Nov 2026', '0.200 ± 0.010 m²·K/kW', '–'],
      ['27 Aug 2026', '0.200 ± 0.010 m²·K/kW', '50.0 ± 2.5 %'],
    ]);
    expect(probable[1]!.href).toBe('/units/A-1?from=2026-07-13&to=2026-10-11#cycles');
  });
});

describe('cleanings for other programs', () => {
  const fleet = fleetWith([
    { tag: 'A-1', done: [{ ago: 60 }, { ago: 3, reason: 'too-few-after' }] },
    { tag: 'H-1', site: HILL, price: null, done: [{ ago: 70, method: '=cmd' }] },
  ]);

  it('are what the contract says', () => {
    const document = fleetCleaningsSchema.parse(JSON.parse(JSON.stringify(cleaningsDocument(fleet, ALL))));
    expect(document).toMatchObject({ from: null, to: '2026-11-25', totals: { cleanings: 3, units: 2 } });
    expect(document.cleanings.map(({ tag, reason, net }) => [tag, reason, net])).toEqual([
      ['A-1', 'too-few-after', null],
      ['A-1', null, 2000],
      ['H-1', null, null],
    ]);
    expect(document.cleanings[2]!.at).toMatch(/\+03:00$/);
    expect(document.asOf).toBe(new Date(NOW).toISOString());
  });

  it('as CSV have a row each, and no text a spreadsheet would run', () => {
    const lines = cleaningsCsv(cleaningsDocument(fleet, ALL)).trim().split('\r\n');
    expect(lines).toHaveLength(4);
    expect(lines[3]).toContain(",'=cmd,");
    expect(lines[2]).toMatch(/,5000,3000,no,2000,EUR$/);
  });
});
