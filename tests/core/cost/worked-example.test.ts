import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { dailyLosses } from '@/lib/core/cost/daily-losses';
import { pricedLosses } from '@/lib/core/cost/priced-losses';
import { PUMP_EFFICIENCY, pumpPower } from '@/lib/core/cost/pump-power';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { makeReadingColumns } from '@/lib/core/series/reading-columns';
import { EPOCH } from '../../support/forward-readings';
import { FIRST, roundUnit, sameEveryDay } from '../../support/losing-unit';

/**
 * Ten days of a fouled unit, worked by hand. ε-NTU of counter-current flow: Incropera et al., 6th ed. 2007, table 11.3.
 *
 *  1  capacity rates                Ch = 10·4 = 40 kW/K, Cc = 20·4 = 80 kW/K, Cr = 0.5
 *  2  most that could be transferred 40 kW/K · (90 − 30) K                  = 2400 kW
 *  3  clean: NTU = 2000·40/40,000 = 2, ε = (1 − e^−1)/(1 − 0.5·e^−1)
 *                                    = 0.632121/0.816060 = 0.774600         → 1859.04 kW
 *  4  fouled, U = 1000: NTU = 1,    ε = (1 − e^−0.5)/(1 − 0.5·e^−0.5)
 *                                    = 0.393469/0.696735 = 0.564733         → 1355.36 kW
 *     outlets: hot 90 − 1355.36/40 = 56.116 °C, cold 30 + 1355.36/80 = 46.942 °C
 *  5  fouling resistance 1/1000 − 1/2000                                    = 0.0005 m²·K/W
 *  6  lost duty 1859.04 − 1355.36                                           = 503.68 kW
 *  7  lost heat of a day 503.68 · 24                                        = 12,088.3 kWh
 *  8  gas of a day, boiler of 90 %: 12,088.3/0.9                            = 13,431.5 kWh
 *  9  gas: 5 days at 0.05 and 5 days at 0.06 per kWh: 13,431.5 · (0.25 + 0.30) = 7,387.32
 * 10  cold side drops 50 kPa, clean 30 kPa: 20,000 Pa · 0.02 m³/s           = 400 W
 * 11  electric input at 70 %: 400/0.7                                       = 571.43 W
 * 12  of ten days: 0.57143 · 240                                            = 137.143 kWh
 * 13  at 0.20 per kWh                                                       = 27.4286
 * 14  together 7,387.32 + 27.43                                             = 7,414.75
 * 15  CO2e: gas 0.2 kg/kWh · 134,315 kWh + electricity 0.4 · 137.143        = 26,863 + 54.857 = 26,917.9 kg
 */
const KWH = 3.6e6;
const unit = roundUnit({}, { cleanPressureDrop: { hot: null, cold: 30_000 } });

function evaluated() {
  const readings = makeReadingColumns(1);
  const reading = { hotIn: 90, hotOut: 56.11597, coldIn: 30, coldOut: 46.942013, hotFlow: 10, coldFlow: 20 };
  readings.time[0] = EPOCH;
  for (const [name, value] of Object.entries(reading)) readings[name as keyof typeof reading][0] = value;
  return {
    reading,
    columns: evaluateReadings({ exchanger: unit, settings: DEFAULT_CHECK_SETTINGS, readings }),
  };
}

const { reading, columns } = evaluated();
const figures = {
  ...reading,
  duty: columns.duty[0]!,
  cleanU: columns.cleanU[0]!,
  foulingResistance: columns.foulingResistance[0]!,
  lostDuty: columns.lostDuty[0]!,
  hotMassFlow: columns.hotMassFlow[0]!,
  coldMassFlow: columns.coldMassFlow[0]!,
  coldPressureDrop: 50_000,
};
const { hotFlow: _hot, coldFlow: _cold, ...ofDay } = figures;
const daily = sameEveryDay([0, 1, 2, 3, 4, 5, 6, 7, 8, 9], ofDay);
const losses = dailyLosses({ exchanger: unit, daily, cycles: [{ start: null, startDay: FIRST }] });
const tenDays = { firstDay: FIRST, lastDay: FIRST + 9 };

describe('ten days of a fouled unit worked by hand', () => {
  it('lines 3 to 6: duty, fouling and lost duty at the same inlets and flows', () => {
    expect(columns.duty[0]! / 1000).toBeCloseTo(1355.36, 2);
    expect(columns.foulingResistance[0]).toBeCloseTo(0.0005, 8);
    expect(columns.lostDuty[0]! / 1000).toBeCloseTo(503.68, 2);
  });

  it('line 7: lost heat of a day', () => {
    expect(losses.heat[0]! / KWH).toBeCloseTo(12_088.3, 1);
  });

  it('line 8: the gas that makes up for it', () => {
    expect(purchasedEnergy(losses.heat[0]!, 0.9) / KWH).toBeCloseTo(13_431.5, 1);
  });

  it('lines 10 to 12: extra work of the pump', () => {
    expect(PUMP_EFFICIENCY).toBe(0.7);
    expect(pumpPower(20_000, 20, { density: 1000, efficiency: 0.7 })).toBeCloseTo(571.43, 2);
    expect(losses.pumping[0]! / 86_400).toBeCloseTo(571.43, 2);
  });

  it('lines 9, 13 and 14: money, with the price that rose within the period', () => {
    const rates = {
      heat: [
        { fromDay: FIRST - 100, perJoule: 0.05 / 0.9 / KWH },
        { fromDay: FIRST + 5, perJoule: 0.06 / 0.9 / KWH },
      ],
      pumping: [{ fromDay: FIRST - 100, perJoule: 0.2 / KWH }],
    };
    const priced = pricedLosses(losses, rates, tenDays);
    expect(priced).toMatchObject({ days: 10, bridgedDays: 0, unpricedDays: 0, unpricedPumpingDays: 0 });
    expect(priced.pumping! / KWH).toBeCloseTo(137.143, 3);
    expect(priced.money).toBeCloseTo(7414.75, 1);
    const gasOnly = pricedLosses(losses, { ...rates, pumping: [] }, tenDays);
    expect(gasOnly.money).toBeCloseTo(7387.32, 1);
    expect(priced.money! - gasOnly.money!).toBeCloseTo(27.4286, 4);
  });

  it('line 15: CO2e by the same sums', () => {
    const factors = {
      heat: [{ fromDay: FIRST, perJoule: 0.2 / 0.9 / KWH }],
      pumping: [{ fromDay: FIRST, perJoule: 0.4 / KWH }],
    };
    expect(pricedLosses(losses, factors, tenDays).money).toBeCloseTo(26_917.9, 0);
  });

  it('cooling: the chiller that makes up for the same heat at COP 4 takes a quarter of it', () => {
    // 12,088.3 kWh/4 = 3,022.1 kWh a day, at 0.20 for ten days 6,044.2.
    const perJoule = purchasedEnergy(1, 4) * (0.2 / KWH);
    const priced = pricedLosses(losses, { heat: [{ fromDay: 0, perJoule }], pumping: [] }, tenDays);
    expect(priced.money).toBeCloseTo(6044.2, 0);
  });
});
