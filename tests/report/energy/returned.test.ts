import { describe, expect, it } from 'vitest';
import type { CleaningEffect } from '@/lib/core/cycles/cleaning-result';
import { returnedCleanings } from '@/lib/report/energy/returned';
import { returnedView } from '@/lib/report/energy/returned-view';
import { unitLosses } from '@/lib/report/energy/unit-losses';
import type { FleetRecords, SupplyRecord } from '@/lib/report/records';
import { isoDay } from '@/lib/time/calendar-day';
import { dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { fleetOf, QUAY } from '../../support/fleet-records';
import { constantFluid, DAY_MS, solveForward, waterUnit } from '../../support/forward-readings';

const BEFORE = 2e-4;
const CLEANED_ROW = 20;
const DAYS = 60;
const exchanger = waterUnit({ hot: constantFluid(4180), cold: constantFluid(4180) });
const dutyAt = (fouling: number) => solveForward(exchanger, { ...exchanger.design, fouling }).duty;
/** What the forward model of the unit says that the clean unit transfers more in a day [J]. */
const WON_PER_DAY = (dutyAt(0) - dutyAt(BEFORE)) * 86_400;
const at = (FIRST_DAY + CLEANED_ROW) * DAY_MS;

const EFFECT: CleaningEffect = {
  before: BEFORE,
  beforeUncertainty: 1e-5,
  after: 0,
  afterUncertainty: 1e-5,
  recovered: BEFORE,
  recoveredUncertainty: 1e-5,
  shareRecovered: 1,
  shareRecoveredUncertainty: 0.05,
  isPartial: false,
  dutyRecovered: null,
  energySoFar: null,
  daysCounted: 0,
  daysElapsed: 0,
  daysUntilBack: null,
};

type Given = {
  prices?: { fromRow: number; perJoule: number }[];
  cost?: number | null;
  effect?: CleaningEffect | null;
  held?: 'hot';
};

/** Fouled at one level for twenty days, then cleaned and clean for forty. */
function cleanedFleet({ prices = [], cost = null, effect = EFFECT, held }: Given): FleetRecords {
  const fleet = fleetOf([{ tag: 'A-1', cleaned: [] }], [QUAY]);
  const unit = fleet.units[0]!;
  unit.record.exchanger = { ...exchanger, losses: { ...exchanger.losses, heldOutlet: held ?? null } };
  unit.record.unit = { ...unit.record.unit, energy: { effect: 'heating', supply: 'gas' } };
  unit.daily = dailyRecord(exchanger, {
    days: DAYS,
    fouling: (day) => (day < CLEANED_ROW ? BEFORE : 0),
    noise: 0,
    seed: 1,
  });
  unit.cleanings = [{ id: 1, at, revision: 0, durationMs: null, method: 'acid', cost, note: null }];
  const cycle = unit.trend!.cycles[0]!;
  unit.trend!.cycles = [
    { ...cycle, start: null, startDay: FIRST_DAY, endDay: FIRST_DAY + CLEANED_ROW, end: at },
    { ...cycle, start: at, startDay: FIRST_DAY + CLEANED_ROW, endDay: FIRST_DAY + DAYS - 1, end: null },
  ];
  unit.trend!.cleaningResults = [
    {
      at,
      localDay: FIRST_DAY + CLEANED_ROW,
      effect,
      reason: effect === null ? 'too-few-after' : null,
    },
  ];
  fleet.supplies = prices.map(
    ({ fromRow, perJoule }): SupplyRecord => ({
      id: 1,
      siteId: QUAY.id,
      supply: 'gas',
      fromDay: FIRST_DAY + fromRow,
      price: { amount: perJoule, per: 'J' },
      carbon: null,
      givenBy: null,
      note: null,
      createdAt: 0,
    }),
  );
  return { ...fleet, now: (FIRST_DAY + DAYS) * DAY_MS };
}

const ALL = { from: FIRST_DAY, to: FIRST_DAY + DAYS };
const resultOf = (given: Given) => returnedCleanings(cleanedFleet(given), ALL)[0]!;
const rowDay = (row: number) => isoDay(FIRST_DAY + row);

describe('what a cleaning returned', () => {
  const perJoule = 1 / WON_PER_DAY;

  it('is each day’s duty less that at the fouling before, by the forward model of the unit, at the price of the day', () => {
    // 40 days; at one unit of money a day for the first 30 of them, then at three.
    const result = resultOf({
      prices: [
        { fromRow: 0, perJoule },
        { fromRow: CLEANED_ROW + 30, perJoule: 3 * perJoule },
      ],
      cost: 45,
    });
    expect(result.energy! / WON_PER_DAY).toBeCloseTo(40, 6);
    expect(result.returned).toBeCloseTo(60, 6);
    expect(result.net).toBeCloseTo(15, 6);
    // 30 after 30 days, 33, 36, 39, 42, 45 after five more: the day in row 20 + 34.
    expect(result.paidBackOn).toBe(rowDay(CLEANED_ROW + 34));
  });

  it('is not paid back before what it cost has come back', () => {
    const result = resultOf({ prices: [{ fromRow: 0, perJoule }], cost: 41 });
    expect(result).toMatchObject({ paidBackOn: null, net: expect.closeTo(-1, 6), reason: null });
  });

  it('is as uncertain as the fall of the fouling: the duty at a level one standard uncertainty higher', () => {
    const { returnedUncertainty } = resultOf({ prices: [{ fromRow: 0, perJoule }], cost: 10 });
    const spread = (dutyAt(BEFORE) - dutyAt(BEFORE + EFFECT.recoveredUncertainty)) * 86_400 * perJoule;
    expect(returnedUncertainty! / (40 * spread)).toBeCloseTo(1, 5);
  });

  it('is not told, with the reason, without a result, a price or a cost, or where the outlet is held', () => {
    const prices = [{ fromRow: 0, perJoule }];
    const reasonOf = (given: Given) => {
      const { reason, net } = resultOf(given);
      return [reason, net];
    };
    expect(reasonOf({ prices, cost: 10, effect: null })).toEqual(['too-few-after', null]);
    expect(reasonOf({ cost: 10 })).toEqual(['no-price', null]);
    expect(reasonOf({ prices })).toEqual(['no-cost', null]);
    expect(reasonOf({ prices, cost: 10, held: 'hot' })).toEqual(['outlet-held', null]);
  });
});

describe('what is said of cleanings together', () => {
  const perJoule = 1 / WON_PER_DAY;
  const frame = { system: 'si', units: null } as const;

  it('sets cost against return so far, with its uncertainty, and counts those paid back', () => {
    const prices = [{ fromRow: 0, perJoule: 100 * perJoule }];
    const paid = returnedView({ cleanings: [resultOf({ prices, cost: 2500 })] }, frame);
    expect(paid.sentences[0]).toMatch(
      /^1 cleaning cost 2,500\u00a0€ and returned 4,000 ± \d+\u00a0€ so far, at the least: paid, with 1,500\u00a0€ over\. 1 of 1 paid back on its own\.$/,
    );
    expect(paid.rows[0]).toMatchObject({ net: '+1,500\u00a0€', href: '/units/A-1/cost' });
    const notYet = returnedView({ cleanings: [resultOf({ prices, cost: 4100 })] }, frame);
    expect(notYet.sentences[0]).toContain('100\u00a0€ still to come back. 0 of 1');
    expect(notYet.rows[0]!.paidBack).toBe('not yet');
  });

  it('lists those without a result and counts them in no sum', () => {
    const { sentences, rows, uncounted } = returnedView(
      { cleanings: [resultOf({ cost: 10, effect: null })] },
      frame,
    );
    expect([sentences, rows]).toEqual([[], []]);
    expect(uncounted).toEqual(['1 cleaning not counted, too few figures since: A-1 (24 Oct 2024).']);
  });
});

describe('how certain a loss is', () => {
  it('follows from the fouling: systematic parts of all days add, by the forward model of the unit', () => {
    const fleet = cleanedFleet({ prices: [{ fromRow: 0, perJoule: 1e-9 }] });
    const unit = fleet.units[0]!;
    const systematic = 1.5e-5;
    unit.daily.foulingResistanceUncertainty.fill(systematic);
    unit.daily.foulingResistanceSystematic.fill(systematic);
    const fouled = { from: FIRST_DAY, to: FIRST_DAY + CLEANED_ROW - 1 };
    const loss = unitLosses(unit, fleet.supplies).uncertainLossIn(fouled);
    const spread = (dutyAt(BEFORE) - dutyAt(BEFORE + systematic)) * 86_400;
    expect(loss.energyLost! / (CLEANED_ROW * WON_PER_DAY)).toBeCloseTo(1, 6);
    expect(loss.energyLostUncertainty! / (CLEANED_ROW * spread)).toBeCloseTo(1, 5);
    expect(loss.moneyUncertainty! / (CLEANED_ROW * spread * 1e-9)).toBeCloseTo(1, 5);
    // Of each day alone they add in squares: √20 instead of 20.
    unit.daily.foulingResistanceSystematic.fill(0);
    const alone = unitLosses(unit, fleet.supplies).uncertainLossIn(fouled);
    expect(alone.energyLostUncertainty! / (Math.sqrt(CLEANED_ROW) * spread)).toBeCloseTo(1, 5);
  });
});
