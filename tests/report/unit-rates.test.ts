import { describe, expect, it } from 'vitest';
import { rateOn } from '@/lib/core/cost/dated-rate';
import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import { unitRates } from '@/lib/report/prices/unit-rates';
import type { SupplyRecord } from '@/lib/report/records';

const KWH = 3.6e6;
const stated = (fromDay: number, changes: Partial<SupplyRecord> = {}): SupplyRecord => ({
  id: 1,
  siteId: 1,
  supply: 'gas',
  fromDay,
  price: null,
  carbon: null,
  givenBy: null,
  note: null,
  createdAt: 0,
  ...changes,
});
const kilowattHour = (amount: number) => ({ amount, per: 'kW.h' });

describe('the rates of a unit', () => {
  const supplies = [
    stated(100, { price: kilowattHour(0.04), carbon: { kg: 0.2, per: 'kW.h' } }),
    // 50 per MWh is 0.05 per kWh.
    stated(200, { price: { amount: 50, per: 'MW.h' } }),
    stated(150, { supply: 'electricity', price: kilowattHour(0.2) }),
  ];
  const boiler = {
    effect: 'heating' as const,
    supply: 'gas',
    efficiency: 0.8,
    price: kilowattHour(0.03),
  };

  it('follow the dated prices of its supply, and hold a factor until the next one', () => {
    const { heat } = unitRates({ energy: boiler }, supplies);
    // By hand: 0.04 per kWh bought, 1/0.8 kWh bought for each kWh of heat: 0.05 per kWh of heat.
    expect(rateOn(heat.money, 100)! * KWH).toBeCloseTo(0.05, 12);
    expect(rateOn(heat.money, 199)! * KWH).toBeCloseTo(0.05, 12);
    expect(rateOn(heat.money, 200)! * KWH).toBeCloseTo(0.0625, 12);
    expect(rateOn(heat.carbon, 200)! * KWH).toBeCloseTo(0.25, 12);
  });

  it('are what the datasheet states before the first day of the supply', () => {
    const { heat } = unitRates({ energy: boiler }, supplies);
    expect(rateOn(heat.money, 99)! * KWH).toBeCloseTo(0.0375, 12);
    expect(rateOn(heat.carbon, 99)).toBeNull();
  });

  it('are what the datasheet states for ever where it names no supply', () => {
    const { supply: _, ...plain } = boiler;
    const { heat } = unitRates({ energy: plain }, supplies);
    expect(heat.money).toHaveLength(1);
    expect(rateOn(heat.money, 5000)! * KWH).toBeCloseTo(0.0375, 12);
  });

  it('of cooling are over the coefficient of performance', () => {
    const chiller = { effect: 'cooling' as const, supply: 'electricity', efficiency: 4 };
    const { heat } = unitRates({ energy: chiller }, supplies);
    expect(rateOn(heat.money, 149)).toBeNull();
    expect(rateOn(heat.money, 150)! * KWH).toBeCloseTo(0.05, 12);
  });

  it('of pumping are for what the motor takes, whatever its efficiency', () => {
    const { pumping } = unitRates({ pumping: { supply: 'electricity', efficiency: 0.7 } }, supplies);
    expect(rateOn(pumping.money, 150)! * KWH).toBeCloseTo(0.2, 12);
  });

  it('are none without energy, and without a price of what it names', () => {
    const none = { money: [], carbon: [] };
    expect(unitRates({}, supplies)).toEqual({ heat: none, pumping: none });
    expect(unitRates({ energy: { effect: 'heating', supply: 'steam' } }, supplies).heat).toEqual(none);
  });
});

describe('prices in force', () => {
  it('are the last stated of each supply, site and day', () => {
    const first = stated(100, { price: kilowattHour(0.04), carbon: { kg: 0.2, per: 'kW.h' } });
    const second = stated(100, { price: kilowattHour(0.05) });
    const other = stated(100, { siteId: 2, price: kilowattHour(0.06) });
    expect(suppliesInForce([first, other, second])).toEqual([second, other]);
  });

  it('are none of a day whose entry was withdrawn, until it is stated again', () => {
    const given = stated(100, { price: kilowattHour(0.04) });
    const later = stated(200, { price: kilowattHour(0.05) });
    expect(suppliesInForce([given, later, stated(200)])).toEqual([given]);
    expect(suppliesInForce([given, later, stated(200), later])).toEqual([given, later]);
  });
});
