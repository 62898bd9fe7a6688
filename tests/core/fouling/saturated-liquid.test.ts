import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { balanceBuffers } from '@/lib/core/exchange/reconcile';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { balanceStreams, reconcileState } from '@/lib/core/fouling/close-balance';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { unitModel } from '@/lib/core/fouling/unit-model';
import { constantFluid, readingsOf, waterUnit } from '../../support/forward-readings';

/** Refrigerant of constant latent heat: its duty hangs on its flow alone, whatever its saturation temperature is read as. */
const LATENT = 2e5;
const REFRIGERANT: FluidSpec = {
  ...(constantFluid(1300) as Extract<FluidSpec, { kind: 'custom' }>),
  vaporisation: { latentHeat: LATENT, saturationTemperature: null },
};
const HOT_CP = 4180;
const state = { hotIn: 40, hotOut: 30, coldIn: Number.NaN, coldOut: 10, hotFlow: 5 };
/** 3 % less refrigerant than closes the balance. */
const coldFlow = (0.97 * state.hotFlow * HOT_CP * (state.hotIn - state.hotOut)) / LATENT;

function evaporator(saturationUncertainty: number): Exchanger {
  const design = { hotIn: 40, hotOut: 30, coldIn: 10, coldOut: 10, hotFlow: 5, coldFlow: 1.045, cleanU: 620 };
  const unit = waterUnit({ hot: constantFluid(HOT_CP), cold: REFRIGERANT, area: 14, design });
  const temperature = { absolute: 0.1, relative: 0, systematicShare: 0.5 };
  const flow = { absolute: 0, relative: 0.01, systematicShare: 0.5 };
  const coldOut = { ...temperature, absolute: saturationUncertainty };
  const sensors = { ...unit.sensors, hotIn: temperature, hotOut: temperature, coldOut };
  return { ...unit, sensors: { ...sensors, hotFlow: flow, coldFlow: flow } };
}

const reading = readingsOf([{ ...state, coldFlow, fouling: 0, duty: 0, overallU: 0, cleanU: 0 }]);
const evaluated = (saturationUncertainty: number) =>
  evaluateReadings({
    exchanger: evaporator(saturationUncertainty),
    settings: DEFAULT_CHECK_SETTINGS,
    readings: reading,
    nominal: 0,
  });

describe('liquid taken as saturated', () => {
  it('moves with the saturation temperature: with a constant latent heat that sensor cannot close a balance', () => {
    const expected = evaluated(0.001);
    for (const sigma of [0.1, 0.3, 1]) {
      const found = evaluated(sigma);
      expect(Math.abs(found.overallU[0]! / expected.overallU[0]! - 1)).toBeLessThan(1e-9);
      expect(Math.abs(found.duty[0]! / expected.duty[0]! - 1)).toBeLessThan(1e-9);
    }
  });

  it('stays at the saturation temperature when the balance is closed by water of its own latent heat', () => {
    const boiler = waterUnit({ cold: { kind: 'steam', pressure: null } });
    const model = unitModel(boiler, DEFAULT_CHECK_SETTINGS);
    const buffers = balanceBuffers();
    buffers.measured.set([150, 128, 110, 110, 20, 0.8]);
    buffers.uncertainty.set([0.2, 0.2, 0, 1, 0.06, 0.016]);
    expect(balanceStreams(model, buffers)).toBe(model.saturatedStreams);
    expect(reconcileState(model, buffers)).toBe(true);
    const [hotIn, hotOut, coldIn, coldOut, hotFlow, steam] = buffers.reconciled;
    expect(coldIn).toBe(coldOut);
    const gain =
      model.cold.phaseChange!.vapourEnthalpy(coldOut!) - model.cold.phaseChange!.liquidEnthalpy(coldOut!);
    const drop = model.hot.enthalpy(hotIn!) - model.hot.enthalpy(hotOut!);
    expect(Math.abs((steam! * gain) / (hotFlow! * drop) - 1)).toBeLessThan(1e-9);
  });

  it('is not assumed where the liquid end is read colder', () => {
    const model = unitModel(evaporator(0.2), DEFAULT_CHECK_SETTINGS);
    const buffers = balanceBuffers();
    buffers.measured.set([40, 30, 8, 10, 5, 1]);
    buffers.uncertainty.fill(0.1);
    expect(balanceStreams(model, buffers)).toBe(model.streams);
  });
});
