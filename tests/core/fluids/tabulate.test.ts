import { describe, expect, it } from 'vitest';
import { makeAir } from '@/lib/core/fluids/air';
import type { Fluid } from '@/lib/core/fluids/fluid';
import { makeGlycol } from '@/lib/core/fluids/glycol';
import { ETHYLENE_GLYCOL, PROPYLENE_GLYCOL } from '@/lib/core/fluids/glycol-tables';
import { makeSeawater } from '@/lib/core/fluids/seawater';
import { makeSteam } from '@/lib/core/fluids/steam';
import { tabulate } from '@/lib/core/fluids/tabulate';
import { makeWater } from '@/lib/core/fluids/water';

/** What `tabulate` states: relative error of a property [-], error of a change of enthalpy and of a vapour's [J/kg]. */
const STATED_BOUND = 1e-7;
const ENTHALPY_BOUND = 1e-3;
const VAPOUR_BOUND = 0.05;
/** Odd, so that the samples do not fall on the check points of the tables. */
const SAMPLES = 2999;

const FLUIDS: [string, () => Fluid][] = [
  ['water at 0.5 MPa', () => makeWater(null)],
  ['water at 0.02 MPa', () => makeWater(2e4)],
  ['water at 20 MPa, up to 350 °C', () => makeWater(20e6)],
  ['water at 100 MPa, up to 350 °C', () => makeWater(100e6)],
  ['steam', () => makeSteam(null)],
  ['steam at 1 MPa', () => makeSteam(1e6)],
  ['sea water', () => makeSeawater(0.035)],
  ['sea water without salt', () => makeSeawater(0)],
  ['brine', () => makeSeawater(0.12)],
  ['air', () => makeAir(null)],
  ['air at 1 kPa', () => makeAir(1e3)],
  ['air at 5 MPa', () => makeAir(5e6)],
  ['ethylene glycol 0 %', () => makeGlycol(ETHYLENE_GLYCOL, 0)],
  ['ethylene glycol 50 %', () => makeGlycol(ETHYLENE_GLYCOL, 0.5)],
  ['propylene glycol 60 %', () => makeGlycol(PROPYLENE_GLYCOL, 0.6)],
];

describe.each(FLUIDS)('%s by tables', (_name, make) => {
  const direct = make();
  const tabulated = tabulate(direct);
  const span = direct.maximum - direct.minimum;
  const temperatures = Array.from({ length: SAMPLES + 1 }, (_, i) =>
    i === SAMPLES ? direct.maximum : direct.minimum + (span * i) / SAMPLES,
  );

  it('is within 1e-7 of its formulas on a dense grid', () => {
    for (const name of ['specificHeat', 'density', 'viscosity', 'conductivity'] as const) {
      let worst = 0;
      for (const t of temperatures) {
        worst = Math.max(worst, Math.abs(tabulated[name]!(t) / direct[name]!(t) - 1));
      }
      expect(worst, name).toBeLessThan(STATED_BOUND);
    }
  });

  it('has changes of enthalpy within 0.001 J/kg of the formulas, from end to end', () => {
    const base = direct.enthalpy(direct.minimum);
    const start = tabulated.enthalpy(direct.minimum);
    let worst = 0;
    for (let i = 0; i <= SAMPLES; i += i === SAMPLES - 9 ? 9 : 10) {
      const exact = direct.enthalpy(temperatures[i]!) - base;
      worst = Math.max(worst, Math.abs(tabulated.enthalpy(temperatures[i]!) - start - exact));
    }
    expect(worst).toBeLessThan(ENTHALPY_BOUND);
  });

  it('keeps name, range and advice, and has no number outside', () => {
    expect([tabulated.name, tabulated.minimum, tabulated.maximum]).toEqual([
      direct.name,
      direct.minimum,
      direct.maximum,
    ]);
    expect(tabulated.advice).toBe(direct.advice);
    expect(tabulated.specificHeat(direct.minimum - 1e-6)).toBeNaN();
    expect(tabulated.enthalpy(direct.maximum + 1e-6)).toBeNaN();
  });
});

describe('the tables of condensing steam', () => {
  const direct = makeSteam(2e5);
  const tabulated = tabulate(direct);

  it('keep the saturation temperature and follow the enthalpy of vapour within 0.05 J/kg', () => {
    expect(tabulated.phaseChange!.saturationTemperature).toBe(direct.phaseChange!.saturationTemperature);
    for (let i = 0; i <= SAMPLES; i++) {
      const t = i === SAMPLES ? direct.maximum : (direct.maximum * i) / SAMPLES;
      const error = tabulated.phaseChange!.vapourEnthalpy(t) - direct.phaseChange!.vapourEnthalpy(t);
      expect(Math.abs(error)).toBeLessThan(VAPOUR_BOUND);
    }
  });

  it('give the condensate one enthalpy, whether asked as liquid or as condensate', () => {
    expect(tabulated.phaseChange!.liquidEnthalpy(120.2)).toBe(tabulated.enthalpy(120.2));
  });
});

it('what a fluid does not state stays null in its tables', () => {
  const water = makeWater(null);
  const bare = tabulate({ ...water, density: null, viscosity: null, conductivity: null });
  expect([bare.density, bare.viscosity, bare.conductivity]).toEqual([null, null, null]);
});
