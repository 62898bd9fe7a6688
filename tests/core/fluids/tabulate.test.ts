import { describe, expect, it } from 'vitest';
import { makeAir } from '@/lib/core/fluids/air';
import type { Fluid } from '@/lib/core/fluids/fluid';
import { makeGlycol } from '@/lib/core/fluids/glycol';
import { ETHYLENE_GLYCOL, PROPYLENE_GLYCOL } from '@/lib/core/fluids/glycol-tables';
import { makeSeawater } from '@/lib/core/fluids/seawater';
import { makeSteam } from '@/lib/core/fluids/steam';
import { tabulate } from '@/lib/core/fluids/tabulate';
import { makeWater } from '@/lib/core/fluids/water';

/** Relative error that `tabulate` states [-]. */
const STATED_BOUND = 1e-7;
/** Odd, so that the samples do not fall on the check points of the tables. */
const SAMPLES = 2999;

const FLUIDS: [string, () => Fluid][] = [
  ['water at 0.5 MPa', () => makeWater(null)],
  ['water at 0.02 MPa', () => makeWater(2e4)],
  ['water at 20 MPa, up to 350 °C', () => makeWater(20e6)],
  ['steam', () => makeSteam(null)],
  ['sea water', () => makeSeawater(0.035)],
  ['brine', () => makeSeawater(0.1)],
  ['air', () => makeAir(null)],
  ['air at 5 MPa', () => makeAir(5e6)],
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

  it('has enthalpy changes within 1e-7 of the formulas', () => {
    const base = direct.enthalpy(direct.minimum);
    const greatest = Math.abs(direct.enthalpy(direct.maximum) - base);
    for (let i = 0; i <= SAMPLES; i += 13) {
      const exact = direct.enthalpy(temperatures[i]!) - base;
      const error = tabulated.enthalpy(temperatures[i]!) - tabulated.enthalpy(direct.minimum) - exact;
      const scale = direct.condensing === null ? Math.abs(exact) : greatest;
      // 1e-9 J/kg: rounding of a difference of enthalpies.
      expect(Math.abs(error)).toBeLessThanOrEqual(STATED_BOUND * scale + 1e-9 * Math.max(1, Math.abs(base)));
    }
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

  it('keep the saturation temperature and follow the enthalpy of vapour within 1e-7', () => {
    expect(tabulated.condensing!.saturationTemperature).toBe(direct.condensing!.saturationTemperature);
    for (let t = 0; t <= 350; t += 0.0731) {
      const exact = direct.condensing!.vapourEnthalpy(t);
      expect(Math.abs(tabulated.condensing!.vapourEnthalpy(t) / exact - 1)).toBeLessThan(STATED_BOUND);
    }
  });

  it('give the condensate one enthalpy, whether asked as liquid or as condensate', () => {
    expect(tabulated.condensing!.liquidEnthalpy(120.2)).toBe(tabulated.enthalpy(120.2));
  });
});

it('what a fluid does not state stays null in its tables', () => {
  const water = makeWater(null);
  const bare = tabulate({ ...water, density: null, viscosity: null, conductivity: null });
  expect([bare.density, bare.viscosity, bare.conductivity]).toEqual([null, null, null]);
});
