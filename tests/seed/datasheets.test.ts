import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { fleetFileSchema, type Unit } from '@/lib/contract/fleet-file';
import { designConductance } from '@/lib/core/clean/design-conductance';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { DEMO_FLEETS } from '@/seed/demo-fleet';
import { demoPlans } from '@/seed/demo-plan';

const units = DEMO_FLEETS.flatMap((fleet) => fleet.units);
/** With the datasheets that held before the equipment was changed. */
const datasheets = [...units, ...demoPlans().flatMap(({ earlier }) => earlier.map(({ unit }) => unit))];
const named = (unit: Unit): [string, Unit] => [unit.tag, unit];

/** Largest imbalance a datasheet of four-digit flows and rounded temperatures may show. */
const BALANCE = 0.005;
/** A stated clean U and the one its temperatures imply differ by rounding only. */
const STATED_U = 0.01;

/**
 * Overall coefficients by service [W/(m²·K)], from public tables of typical values (Çengel, Heat and Mass Transfer,
 * table 11-1, and the one-page table "Typical overall heat transfer coefficients in heat exchangers"): water to oil
 * 100–350, tubular liquids 150–1200 (water to water 850–1700), plate 1000–4000, steam condensers and feed heaters
 * 1000–8500, steam to heavy oil 50–200, finned tubes 30–60 on the air side, tubular gas at pressure to liquid 15–150.
 */
const TYPICAL_U = {
  plate: [1000, 4300],
  oilPlate: [350, 700],
  oil: [100, 350],
  liquid: [850, 1700],
  steam: [1000, 8500],
  steamToOil: [50, 200],
  fins: [30, 150],
} as const;

function typical({ construction, hot, cold }: Unit): readonly [number, number] {
  const isOil = [hot, cold].some((stream) => stream.fluid === 'oil' || stream.name?.includes('oil') === true);
  const isGas = hot.fluid === 'air' || cold.fluid === 'air';
  if (isGas) return TYPICAL_U.fins;
  if (hot.fluid === 'steam') return isOil ? TYPICAL_U.steamToOil : TYPICAL_U.steam;
  if (construction === 'plate') return isOil ? TYPICAL_U.oilPlate : TYPICAL_U.plate;
  return isOil ? TYPICAL_U.oil : TYPICAL_U.liquid;
}

function duties({ hot, cold, design }: Exchanger): { hot: number; cold: number } {
  const [hotFluid, coldFluid] = [makeFluid(hot), makeFluid(cold)];
  const condensing = hotFluid.phaseChange;
  const given =
    (condensing === null ? hotFluid.enthalpy(design.hotIn) : condensing.vapourEnthalpy(design.hotIn)) -
    hotFluid.enthalpy(design.hotOut);
  const evaporating = coldFluid.phaseChange;
  const taken =
    (evaporating === null ? coldFluid.enthalpy(design.coldOut) : evaporating.vapourEnthalpy(design.coldOut)) -
    coldFluid.enthalpy(design.coldIn);
  return { hot: design.hotFlow * given, cold: design.coldFlow * taken };
}

describe('the demonstration fleet', () => {
  it('is two valid fleet files of at least 28 units in two time zones', () => {
    for (const fleet of DEMO_FLEETS)
      expect(fleetFileSchema.parse(JSON.parse(JSON.stringify(fleet)))).toEqual(fleet);
    expect(new Set(DEMO_FLEETS.map(({ site }) => site.timeZone)).size).toBe(2);
    expect(units.length).toBeGreaterThanOrEqual(28);
    expect(new Set(units.map(({ tag }) => tag)).size).toBe(units.length);
  });

  it('has every construction, every kind of arrangement and limit, steam condensed and raised, and SI beside US units', () => {
    expect(new Set(units.map((unit) => unit.construction))).toEqual(
      new Set(['plate', 'shell-and-tube', 'double-pipe', 'air-cooled', 'other']),
    );
    expect(new Set(units.map((unit) => unit.arrangement.kind))).toEqual(
      new Set(['plate', 'shell-and-tube', 'counter-current', 'co-current', 'crossflow']),
    );
    expect(new Set(units.flatMap((unit) => unit.limits.map((limit) => limit.kind)))).toEqual(
      new Set(['fouling-resistance', 'cleanliness', 'outlet-temperature', 'pressure-drop']),
    );
    expect(units.some((unit) => unit.hot.fluid === 'steam')).toBe(true);
    expect(units.some((unit) => unit.cold.fluid === 'steam')).toBe(true);
    expect(new Set(units.map((unit) => unit.design.hotIn.unit))).toEqual(new Set(['Cel', '[degF]']));
  });

  it('states two viscosities of every oil, of the grade it is named after', () => {
    const oils = units.flatMap(({ hot, cold }) => [hot, cold]).filter(({ fluid }) => fluid === 'oil');
    const at40 = oils.map(({ viscosities }) =>
      viscosities!.find(({ temperature }) => temperature.value === 40),
    );
    // ISO 3448: an oil of grade n has n mm²/s at 40 °C within a tenth.
    expect(new Set(at40.flatMap((point) => point?.value.value ?? []))).toEqual(new Set([32, 46]));
    expect(oils).toHaveLength(5);
  });

  it.each(datasheets.map(named))(
    '%s: what the hot stream gives off the cold one takes up, within half a per cent',
    (_, unit) => {
      const { hot, cold } = duties(toExchanger(unit));
      expect(Math.abs(hot - cold) / ((hot + cold) / 2)).toBeLessThan(BALANCE);
    },
  );

  it.each(datasheets.map(named))(
    '%s: its clean U can be, is usual for its service and is what it states',
    (_, unit) => {
      const exchanger = toExchanger(unit);
      const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
      const implied = designConductance(exchanger, fluids);
      const [low, high] = typical(unit);
      expect(implied).toBeGreaterThan(low);
      expect(implied).toBeLessThan(high);
      if (exchanger.design.cleanU !== null) {
        expect(Math.abs(exchanger.design.cleanU / implied - 1)).toBeLessThan(STATED_U);
      }
    },
  );

  it.each(units.map(named))(
    '%s: says what it does, what a cleaning takes, its sensor figures and check settings',
    (_, unit) => {
      expect(unit.energy?.effect).toBeDefined();
      expect(unit.cleaning?.cost).toBeGreaterThan(0);
      expect(unit.cleaning?.isolation).toMatch(/local codes/);
      expect(unit.cleaning?.compatibility?.length).toBeGreaterThan(40);
      expect(unit.sensors?.hotIn?.uncertainty).toBeDefined();
      expect(toCheckSettings(unit).balanceTolerance).toBeGreaterThan(0);
    },
  );
});
