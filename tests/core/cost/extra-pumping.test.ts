import { describe, expect, it } from 'vitest';
import { depositPumping, extraFlowPumping, pumpedSides } from '@/lib/core/cost/pumped-sides';
import type { Exchanger, LossSettings } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { constantFluid, DAY_MS } from '../../support/forward-readings';
import { FIRST, ROUND_FLUID, roundUnit, sameEveryDay } from '../../support/losing-unit';

const NO_ROWS = sameEveryDay([], {});
const span = (from: number, to: number, isRecorded = true) => ({
  start: isRecorded ? (FIRST + from) * DAY_MS : null,
  startDay: FIRST + from,
  from,
  to,
});

function cold(
  losses: Partial<LossSettings>,
  {
    daily = NO_ROWS,
    spans = [] as ReturnType<typeof span>[],
  }: { daily?: DailyColumns; spans?: ReturnType<typeof span>[] } = {},
  change: Partial<Exchanger> = {},
) {
  const exchanger = roundUnit(change, losses);
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  return pumpedSides(exchanger, { fluids, daily, spans }).find(({ side }) => side === 'cold')!;
}

const clean30 = { cleanPressureDrop: { hot: null, cold: 30_000 } };

describe('what deposits cost the pump', () => {
  it('is the pressure drop beyond the clean one at the day’s own flow: Δp ∝ ṁ^1.8, V̇ ∝ ṁ', () => {
    const at = { pressureDrop: 50_000, massFlow: 20, temperature: 40 };
    // 20,000 Pa · 0.02 m³/s / 0.7.
    expect(depositPumping(cold(clean30), at)).toBeCloseTo(571.4286, 4);
    // At half the flow (1/2)^2.8 of it.
    expect(depositPumping(cold(clean30), { ...at, massFlow: 10 })).toBeCloseTo(571.4286 * 0.5 ** 2.8, 4);
  });

  it('is below 0 where the unit drops less than its clean value, never cut to 0', () => {
    const at = { pressureDrop: 20_000, massFlow: 20, temperature: 40 };
    expect(depositPumping(cold(clean30), at)).toBeCloseTo(-285.7143, 4);
  });

  it('is not known without a clean value, a pressure drop or a density', () => {
    const at = { pressureDrop: 50_000, massFlow: 20, temperature: 40 };
    expect(depositPumping(cold({}), at)).toBeNaN();
    expect(depositPumping(cold(clean30), { ...at, pressureDrop: Number.NaN })).toBeNaN();
    const exchanger = roundUnit({ cold: constantFluid(4000) });
    const fluids = { hot: makeFluid(ROUND_FLUID), cold: makeFluid(exchanger.cold) };
    const sides = pumpedSides(exchanger, { fluids, daily: NO_ROWS, spans: [] });
    expect(sides.map(({ side }) => side)).toEqual(['hot']);
  });
});

describe('the clean pressure drop where none is stated', () => {
  const days = Array.from({ length: 40 }, (_, day) => day);
  const daily = sameEveryDay(days, {});
  daily.coldPressureDrop.set(days.map((day) => 40_000 + 100 * (day % 20)));
  for (let row = 20; row < 40; row++) daily.coldPressureDrop[row]! -= 5000;

  it('is the least of what recorded cleanings left, each the median of its first five figures', () => {
    expect(cold({}, { daily, spans: [span(0, 20), span(20, 40)] }).clean).toBe(35_200);
    expect(cold({}, { daily, spans: [span(0, 20)] }).clean).toBe(40_200);
  });

  it('is not told by a cycle that no recorded cleaning began, by two figures, nor by figures weeks later', () => {
    expect(cold({}, { daily, spans: [span(0, 20, false)] }).clean).toBeNull();
    expect(cold({}, { daily, spans: [span(0, 2)] }).clean).toBeNull();
    expect(cold({}, { daily, spans: [{ ...span(15, 40), startDay: FIRST }] }).clean).toBeNull();
  });

  it('stands back behind the datasheet', () => {
    expect(cold(clean30, { daily, spans: [span(0, 20)] }).clean).toBe(30_000);
  });
});

describe('what the extra flow of a held outlet costs the pump', () => {
  const at = { pressureDrop: 50_000, massFlow: 20, cleanFlow: 10, temperature: 40 };

  it('is the head times the extra flow where the head is stated', () => {
    // 200 kPa · (0.02 − 0.01) m³/s / 0.7.
    expect(extraFlowPumping(cold({ pumpHead: { hot: null, cold: 200_000 } }), at)).toBeCloseTo(2857.143, 3);
  });

  it('else today’s pressure drop at today’s flow less the clean one at the clean flow', () => {
    // 50 kPa · 0.02 m³/s / 0.7 − 30 kPa · 0.5^1.8 · 0.01 m³/s / 0.7.
    const byHand = (1000 - 300 * 0.5 ** 1.8) / 0.7;
    expect(extraFlowPumping(cold(clean30), at)).toBeCloseTo(byHand, 6);
    expect(extraFlowPumping(cold({}), at)).toBeCloseTo((1000 - 500 * 0.5 ** 1.8) / 0.7, 6);
    expect(extraFlowPumping(cold({}), { ...at, pressureDrop: Number.NaN })).toBeNaN();
  });
});
