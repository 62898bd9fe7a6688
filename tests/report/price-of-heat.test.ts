import { describe, expect, it } from 'vitest';
import type { Unit } from '@/lib/contract/fleet-file';
import { carbonFor, moneyFor } from '@/lib/report/price-of-heat';
import { unitResult } from '@/lib/report/unit-result';
import { linearTrend, NOW, PLATE_UNIT, PORT } from '../support/unit-records';

const MWH = 3.6e9;

/** A boiler of 80 %: a MWh of heat takes 1.25 MWh of gas. */
const BOILER = {
  effect: 'heating',
  price: { amount: 0.06, per: 'kW.h' },
  carbon: { kg: 56, per: 'GJ' },
  efficiency: 0.8,
} satisfies Unit['energy'];

describe('what heat costs that has to be bought instead', () => {
  it('counts what is bought for it, in the unit the price is stated for', () => {
    expect(moneyFor(MWH, { energy: BOILER })).toBeCloseTo(75, 10);
    expect(moneyFor(MWH, { energy: { ...BOILER, price: { amount: 60, per: 'MW.h' } } })).toBeCloseTo(75, 10);
    // 1.25 MWh are 4.5 GJ.
    expect(carbonFor(MWH, { energy: BOILER })).toBeCloseTo(252, 10);
  });

  it('divides by the coefficient of performance where a chiller makes it up', () => {
    const chiller = { ...BOILER, effect: 'cooling', efficiency: 4 } as const;
    expect(moneyFor(MWH, { energy: chiller })).toBeCloseTo(15, 10);
  });

  it('takes heat as bought where no efficiency is stated', () => {
    const { efficiency: _, ...plain } = BOILER;
    expect(moneyFor(MWH, { energy: plain })).toBeCloseTo(60, 10);
    expect(carbonFor(MWH, { energy: plain })).toBeCloseTo(201.6, 10);
  });

  it('is zero for none, and nothing where the heat, the price or the factor is not known', () => {
    expect(moneyFor(0, { energy: BOILER })).toBe(0);
    expect(moneyFor(null, { energy: BOILER })).toBeNull();
    expect(moneyFor(MWH, {})).toBeNull();
    const { price: _price, ...unpriced } = BOILER;
    expect(moneyFor(MWH, { energy: unpriced })).toBeNull();
    const { carbon: _carbon, ...uncounted } = BOILER;
    expect(carbonFor(MWH, { energy: uncounted })).toBeNull();
    expect(carbonFor(null, { energy: BOILER })).toBeNull();
  });

  it('is what the result of a unit says', () => {
    const result = (energy: Unit['energy']) =>
      unitResult({
        unit: { ...PLATE_UNIT, energy },
        site: PORT,
        trend: {
          ...linearTrend(),
          energyLostSinceCleaning: 3 * MWH,
          energyLostLast30Days: null,
          lostDuty: 1e6,
        },
        asOf: NOW,
        economicDay: null,
      });
    const { cost, carbon } = result(BOILER);
    expect(cost).toMatchObject({ currency: PORT.currency, last30Days: null });
    expect(cost!.sinceCleaning).toBeCloseTo(225, 9);
    // A megawatt for a day is 24 MWh.
    expect(cost!.perDay).toBeCloseTo(24 * 75, 8);
    expect(carbon!.perDay).toBeCloseTo(24 * 252, 8);
    expect(result({ effect: 'heating' })).toMatchObject({ cost: null, carbon: null });
  });
});
