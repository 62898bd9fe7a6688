import { describe, expect, it } from 'vitest';
import { liquidWaterState, liquidWaterTemperature } from '@/lib/core/fluids/liquid-water';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { describeOutOfRange } from '@/lib/core/fluids/range';
import { saturationPressure, saturationTemperature } from '@/lib/core/fluids/saturation-line';
import { makeSteam, saturatedVapourEnthalpy } from '@/lib/core/fluids/steam';
import { makeWater } from '@/lib/core/fluids/water';
import { waterConductivity, waterViscosity } from '@/lib/core/fluids/water-transport';
import { waterVapourState } from '@/lib/core/fluids/water-vapour';
import { expectPrinted } from '../support/printed';
import reference from './data/iapws-water.json';

const { cases } = reference;
/** The nine digits that the releases print. */
const PRINTED = { digits: 9 };
/** Nine digits of the file's own computed figures; two of its saturation figures are themselves off by 1e-10. */
const COMPUTED = { digits: 9, relative: 1e-10 };
const celsius = (kelvin: number) => kelvin - 273.15;

describe('IAPWS R7-97(2012), the industrial formulation', () => {
  it('meets table 5, region 1, to the digits printed', () => {
    for (const row of cases['R7-97_table5_region1']) {
      const state = liquidWaterState(celsius(row.T_K), row.p_MPa * 1e6);
      expectPrinted(state.volume, row.v_m3_kg, PRINTED);
      expectPrinted(state.enthalpy / 1e3, row.h_kJ_kg, PRINTED);
      expectPrinted(state.internalEnergy / 1e3, row.u_kJ_kg, PRINTED);
      expectPrinted(state.entropy / 1e3, row.s_kJ_kgK, PRINTED);
      expectPrinted(state.specificHeat / 1e3, row.cp_kJ_kgK, PRINTED);
      expectPrinted(state.soundSpeed, row.w_m_s, PRINTED);
    }
  });

  it('meets table 7, temperature from pressure and enthalpy', () => {
    for (const row of cases['R7-97_table7_backward_T_of_p_h']) {
      expectPrinted(liquidWaterTemperature(row.p_MPa * 1e6, row.h_kJ_kg * 1e3) + 273.15, row.T_K, PRINTED);
    }
  });

  it('meets table 35, saturation pressure', () => {
    for (const row of cases['R7-97_table35_saturation_pressure']) {
      expectPrinted(saturationPressure(celsius(row.T_K)) / 1e6, row.p_MPa, PRINTED);
    }
  });

  it('meets table 36, saturation temperature', () => {
    for (const row of cases['R7-97_table36_saturation_temperature']) {
      expectPrinted(saturationTemperature(row.p_MPa * 1e6) + 273.15, row.T_K, PRINTED);
    }
  });
});

describe('IAPWS transport releases', () => {
  it('meets R12-08, table 4, viscosity without critical enhancement', () => {
    for (const row of cases['R12-08_table4_viscosity_without_critical_enhancement']) {
      expectPrinted(waterViscosity(celsius(row.T_K), row.rho_kg_m3) * 1e6, row.mu_uPa_s, { digits: 8 });
    }
  });

  it('meets R15-11, table 4, conductivity without critical enhancement', () => {
    for (const row of cases['R15-11_table4_conductivity_without_critical_enhancement']) {
      expectPrinted(waterConductivity(celsius(row.T_K), row.rho_kg_m3) * 1e3, row.k_mW_mK, PRINTED);
    }
  });
});

describe('liquid water as a stream', () => {
  it('meets every state of the liquid grid by its formulas', () => {
    expect(cases.liquid_grid.rows).toHaveLength(97);
    for (const [p, t, rho, cp, h, mu, k] of cases.liquid_grid.rows as number[][]) {
      const water = makeWater(p! * 1e6);
      expectPrinted(water.density!(t!), rho!, COMPUTED);
      expectPrinted(water.specificHeat(t!) / 1e3, cp!, COMPUTED);
      expectPrinted(water.enthalpy(t!) / 1e3, h!, COMPUTED);
      expectPrinted(water.viscosity!(t!), mu!, COMPUTED);
      expectPrinted(water.conductivity!(t!), k!, COMPUTED);
    }
  });

  it('meets the same grid within 1e-7 by its tables', () => {
    for (const [p, t, rho, cp, h, mu, k] of cases.liquid_grid.rows as number[][]) {
      const water = makeFluid({ kind: 'water', pressure: p! * 1e6 });
      const near = { digits: 9, relative: 1e-7 };
      expectPrinted(water.density!(t!), rho!, near);
      expectPrinted(water.specificHeat(t!) / 1e3, cp!, near);
      expectPrinted(water.enthalpy(t!) / 1e3, h!, near);
      expectPrinted(water.viscosity!(t!), mu!, near);
      expectPrinted(water.conductivity!(t!), k!, near);
    }
  });

  it('leaves out a critical enhancement of conductivity that is below 0.13 % up to 180 °C', () => {
    for (const row of cases.liquid_grid.rows as number[][]) {
      expect(Math.abs(row[6]! / row[7]! - 1)).toBeLessThan(1.3e-3);
    }
  });

  it('is not liquid above saturation: no number, and words that name fluid, value, range and remedy', () => {
    const [tooHot] = cases.behaviour;
    const water = makeFluid({ kind: 'water', pressure: tooHot!.p_MPa * 1e6 });
    expect(water.maximum).toBeCloseTo(99.6059, 4);
    for (const property of [
      water.specificHeat,
      water.enthalpy,
      water.density!,
      water.viscosity!,
      water.conductivity!,
    ]) {
      expect(property(tooHot!.t_C)).toBeNaN();
      expect(property(99.6)).toBeGreaterThan(0);
    }
    expect(describeOutOfRange(water, tooHot!.t_C)).toBe(
      'water at 0.1 MPa: 99.7 °C is outside 0 to 99.6 °C; if the stream is liquid there, state its absolute pressure: 0.11 MPa or more',
    );
  });

  it('has no properties below 0 °C, nor above 350 °C whatever its pressure', () => {
    const [, tooCold, farTooHot] = cases.behaviour;
    for (const { t_C, p_MPa } of [tooCold!, farTooHot!]) {
      const water = makeFluid({ kind: 'water', pressure: p_MPa * 1e6 });
      expect(water.enthalpy(t_C)).toBeNaN();
      expect(describeOutOfRange(water, t_C)).toContain(`${t_C} °C is outside 0 to`);
      expect(describeOutOfRange(water, t_C)).not.toContain('pressure');
    }
    expect(makeFluid({ kind: 'water', pressure: 20e6 }).maximum).toBe(350);
  });
});

describe('steam that condenses', () => {
  it('meets the saturated steam table by pressure', () => {
    for (const [bar, t, hf, hg, hfg, rhoF, rhoG, cpF, muF, kF] of cases.saturated_steam.rows as number[][]) {
      const steam = makeSteam(bar! * 1e5);
      const boiling = steam.condensing!.saturationTemperature!;
      expectPrinted(boiling, t!, COMPUTED);
      expectPrinted(steam.condensing!.liquidEnthalpy(boiling) / 1e3, hf!, COMPUTED);
      expectPrinted(steam.condensing!.vapourEnthalpy(boiling) / 1e3, hg!, COMPUTED);
      expectPrinted(
        (steam.condensing!.vapourEnthalpy(boiling) - steam.enthalpy(boiling)) / 1e3,
        hfg!,
        COMPUTED,
      );
      expectPrinted(steam.density!(boiling), rhoF!, COMPUTED);
      expectPrinted(1 / waterVapourState(boiling, bar! * 1e5).volume, rhoG!, COMPUTED);
      expectPrinted(steam.specificHeat(boiling) / 1e3, cpF!, COMPUTED);
      expectPrinted(steam.viscosity!(boiling), muF!, COMPUTED);
      // The file has the critical enhancement here, 0.28 % at 20 bar, which is left out: see `waterConductivity`.
      expectPrinted(steam.conductivity!(boiling), kF!, { digits: 9, relative: 2.8e-3 });
    }
  });

  it('meets the saturated steam table by temperature, by tables within 1e-7', () => {
    const steam = makeFluid({ kind: 'steam', pressure: null });
    const near = { digits: 9, relative: 1e-7 };
    expect(steam.condensing!.saturationTemperature).toBeNull();
    for (const [t, p, hf, hg, hfg] of cases.saturated_steam_by_temperature.rows as number[][]) {
      expectPrinted(saturationPressure(t!) / 1e6, p!, COMPUTED);
      expectPrinted(saturatedVapourEnthalpy(t!) / 1e3, hg!, COMPUTED);
      expectPrinted(steam.condensing!.vapourEnthalpy(t!) / 1e3, hg!, near);
      expectPrinted(steam.condensing!.liquidEnthalpy(t!) / 1e3, hf!, near);
      expectPrinted((steam.condensing!.vapourEnthalpy(t!) - steam.enthalpy(t!)) / 1e3, hfg!, near);
    }
  });
});
