import { describe, expect, it } from 'vitest';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import { unitResultSchema } from '@/lib/contract/results';
import type { Cycle, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import { type CleaningDay, cleaningDay } from '@/lib/report/prices/cleaning-day';
import { unitMoney } from '@/lib/report/prices/unit-money';
import type { SupplyRecord } from '@/lib/report/records';
import { unitResult } from '@/lib/report/unit-result';
import { dayNumber } from '@/lib/time/calendar-day';
import { linearTrend, PLATE_UNIT, PORT } from '../support/unit-records';

const TODAY = dayNumber('2026-03-10');
/** 100 kW lost for a day are 2.4 MWh. */
const LOST = 100_000;

const gas = (from: string, amount: number | null, kg: number | null = null): SupplyRecord => ({
  id: 1,
  siteId: 1,
  supply: 'natural gas',
  fromDay: dayNumber(from),
  price: amount === null ? null : { amount, per: 'MW.h' },
  carbon: kg === null ? null : { kg, per: 'MW.h' },
  givenBy: null,
  note: null,
  createdAt: 0,
});

const HEATER: Unit['energy'] = { effect: 'heating', supply: 'natural gas', efficiency: 0.8 };

/** One figure a day from the first to the last, both included. */
function dailyOf(first: number, last: number, lostDuty: (day: number) => number): DailyColumns {
  const daily = makeDailyColumns(last - first + 1);
  for (let row = 0; row < daily.day.length; row++) {
    daily.day[row] = first + row;
    daily.lostDuty[row] = lostDuty(first + row);
  }
  return daily;
}

const cycleFrom = (startDay: number): Cycle => ({ ...linearTrend().cycles[1]!, start: 0, startDay });

type Case = {
  first: number;
  lostDuty?: (day: number) => number;
  unit?: Partial<Unit>;
  supplies: SupplyRecord[];
};

function moneyOf({ first, lostDuty = () => LOST, unit = { energy: HEATER }, supplies }: Case) {
  const input = {
    unit,
    exchanger: toExchanger({ ...PLATE_UNIT, ...unit }),
    trend: { cycles: [cycleFrom(first)], lostDuty: LOST },
    daily: dailyOf(first, TODAY, lostDuty),
    supplies,
    today: TODAY,
  };
  return unitMoney(input, 'EUR');
}

describe('what a unit lost', () => {
  const first = dayNumber('2025-12-20');

  it('is priced at the price of each day', () => {
    // 81 days since 20 December, 69 of them this year; gas at 40 until February, at 50 in February, at 60 in March.
    const supplies = [gas('2025-01-01', 40, 200), gas('2026-02-01', 50), gas('2026-03-01', 60)];
    const { cost, carbon, energyLost } = moneyOf({ first, supplies });
    // By hand: 2.4 MWh of heat a day take 3 MWh of gas: 120 €, 150 €, 180 € a day.
    expect(cost!.sinceCleaning).toBeCloseTo(43 * 120 + 28 * 150 + 10 * 180, 6);
    expect(cost!.thisYear).toBeCloseTo(31 * 120 + 28 * 150 + 10 * 180, 6);
    // The last 30 days begin on 9 February: 20 days of it, and 10 of March.
    expect(cost!.last30Days).toBeCloseTo(20 * 150 + 10 * 180, 6);
    expect(cost!.perDay).toBeCloseTo(180, 8);
    expect(carbon!.sinceCleaning).toBeCloseTo(81 * 3 * 200, 6);
    expect(energyLost.thisYear! / 3.6e9).toBeCloseTo(69 * 2.4, 9);
    expect(cost!.unpricedDays).toEqual({ sinceCleaning: 0, last30Days: 0, thisYear: 0 });
  });

  it('counts a day before the first price as unpriced, not as free', () => {
    const { cost } = moneyOf({ first, supplies: [gas('2026-03-01', 60)] });
    expect(cost!.sinceCleaning).toBeCloseTo(10 * 180, 6);
    expect(cost!.unpricedDays).toEqual({ sinceCleaning: 71, last30Days: 20, thisYear: 59 });
    expect(moneyOf({ first, supplies: [] })).toMatchObject({ cost: null, carbon: null });
  });

  it('takes no joule of a unit whose outlet is held for lost heat', () => {
    const energy: Unit['energy'] = { ...HEATER, heldOutlet: 'cold' };
    const { energyLost, cost } = moneyOf({ first, unit: { energy }, supplies: [gas('2025-01-01', 40)] });
    expect(energyLost.sinceCleaning).toBe(0);
    expect(cost!.perDay).toBe(0);
  });
});

/** A loss that grew evenly since the cleaning and goes on so: `growth` watts more each day. */
function growing(growth: number, { age, cleaning }: { age: number; cleaning: Unit['cleaning'] }) {
  const startDay = TODAY - age + 1;
  const ages = Array.from({ length: 105 }, (_, week) => week * 7);
  const ahead = ages.map((days) => growth * (age + days));
  const trend: UnitTrend = {
    ...linearTrend(),
    cycles: [cycleFrom(startDay)],
    outlook: {
      ageDays: ages,
      lostDuty: ahead,
      lostDutyAfter: ahead,
      pumping: ages.map(() => 0),
      pumpingAfter: ages.map(() => 0),
      isPumpingKnown: false,
      reached: ages.map(() => 0),
      reachedAfter: ages.map(() => 0),
      duty: 2e6,
      left: { value: 0, from: 'nothing', uncertainty: 5e-6, cleanings: 0 },
    },
  };
  const unit: Unit = { ...PLATE_UNIT, energy: HEATER, cleaning };
  return {
    unit,
    exchanger: toExchanger(unit),
    trend,
    // Mid-day of each day, so that the sum of the days is the integral.
    daily: dailyOf(startDay, TODAY, (day) => growth * (day - startDay + 0.5)),
    supplies: [gas('2025-01-01', 40)],
    cleanings: [],
    today: TODAY,
  };
}

describe('the economic day', () => {
  /** 1 kW more lost each day is 24 kWh of heat, 30 kWh of gas at 40 €/MWh: 1.2 € a day more each day. */
  const GROWTH = 1000;
  const RATE_GROWTH = 1.2;
  const inOutage: Unit['cleaning'] = { cost: 6000, duration: { value: 1, unit: 's' }, inOutageOnly: true };

  it('of a loss that grows evenly ends a cycle of √(2C/k)', () => {
    // Harris 1913 (square-root rule): √(2 · 6000/1.2) = 100 days, at a mean cost of √(2 · 6000 · 1.2) = 120 a day.
    const day = cleaningDay(growing(GROWTH, { age: 40, cleaning: inOutage })) as CleaningDay;
    expect(Math.sqrt((2 * 6000) / RATE_GROWTH)).toBeCloseTo(100, 9);
    expect(day.bestDay).toBe(TODAY + 60);
    expect(day.curve.least!.meanCost).toBeCloseTo(120, 2);
    expect(day.lossSoFar).toBeCloseTo((RATE_GROWTH * 40 ** 2) / 2, 6);
  });

  it('is the day it was best where that has passed', () => {
    const day = cleaningDay(growing(GROWTH, { age: 160, cleaning: inOutage })) as CleaningDay;
    expect(Math.abs(day.bestDay! - (TODAY - 60))).toBeLessThanOrEqual(1);
  });

  it('counts the time out of service: what the datasheet says of an hour, or the price of the whole duty', () => {
    const half: Unit['cleaning'] = { cost: 3000, duration: { value: 10, unit: 'h' }, downtimePerHour: 300 };
    const stated = cleaningDay(growing(GROWTH, { age: 40, cleaning: half })) as CleaningDay;
    expect([stated.downtimeFrom, stated.downtimeCost]).toEqual(['datasheet', 3000]);
    // (C + k·t²/2)/(t + tc) is least at −tc + √(tc² + 2C/k), tc the outage: 0.417 days earlier.
    expect(stated.curve.least!.day).toBeCloseTo(60 - 10 / 24, 1);
    const { downtimePerHour: _, ...plain } = half;
    const whole = cleaningDay(growing(GROWTH, { age: 40, cleaning: plain })) as CleaningDay;
    // 2 MW for 10 h are 20 MWh of heat, 25 MWh of gas: 1,000 €.
    expect(whole.downtimeFrom).toBe('duty');
    expect(whole.downtimeCost).toBeCloseTo(1000, 8);
  });

  it('is not told without a price, without the cost of a cleaning, and while it is too early to project', () => {
    const known = growing(GROWTH, { age: 40, cleaning: inOutage });
    expect(cleaningDay({ ...known, supplies: [] })).toBe('no-price');
    const { cleaning: _, ...uncosted } = known.unit;
    expect(cleaningDay({ ...known, unit: uncosted })).toBe('no-cleaning-cost');
    expect(cleaningDay({ ...known, trend: { ...known.trend, outlook: null } })).toBe('no-outlook');
  });

  it('stands in the result of the unit, with its losses', () => {
    const known = growing(GROWTH, { age: 40, cleaning: inOutage });
    const result = unitResult({ ...known, site: PORT, asOf: Date.parse('2026-03-10T12:00:00Z') });
    expect(unitResultSchema.strict().parse(result)).toMatchObject({ economicDate: '2026-05-09' });
    expect(result.cost!.sinceCleaning).toBeCloseTo(960, 6);
  });
});
