import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { massFlow } from '@/lib/core/checks/screen-values';
import type { Exchanger, Sensor } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { constantFluid, readingsOf, solveForward, waterUnit } from '../../support/forward-readings';

const unit = waterUnit();
const state = solveForward(unit, { ...unit.design, fouling: 1e-4 });

function reasonsFor(
  change: Partial<Record<Sensor, number>>,
  exchanger: Exchanger = unit,
  isHotVolume = false,
) {
  const readings = readingsOf([{ ...state, ...change }]);
  if (isHotVolume) readings.flowBasis[0] = HOT_FLOW_IS_VOLUME;
  const result = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
  return reasonsOf(result.reasons[0]!);
}

describe('screening of a reading by itself', () => {
  it('accepts a sound reading', () => {
    expect(reasonsFor({})).toEqual([]);
  });

  it('missing: one temperature and one flow, or two of either', () => {
    expect(reasonsFor({ hotIn: Number.NaN, coldFlow: Number.NaN })).toEqual(['missing']);
    expect(reasonsFor({ hotIn: Number.NaN, coldIn: Number.NaN })).toEqual(['missing']);
    expect(reasonsFor({ hotFlow: Number.NaN, coldFlow: Number.NaN })).toEqual(['missing']);
  });

  it('not a number: Infinity of either sign', () => {
    expect(reasonsFor({ hotOut: Number.POSITIVE_INFINITY })).toEqual(['not-a-number']);
    expect(reasonsFor({ coldFlow: Number.NEGATIVE_INFINITY })).toEqual(['not-a-number']);
  });

  it('out of range: a temperature beyond the settings, a flow beyond twice the design or clearly negative', () => {
    expect(reasonsFor({ hotIn: 501 })).toEqual(['out-of-range']);
    expect(reasonsFor({ coldIn: -61 })).toEqual(['out-of-range']);
    expect(reasonsFor({ hotFlow: 2.01 * unit.design.hotFlow })).toEqual(['out-of-range']);
    expect(reasonsFor({ coldFlow: -0.06 * unit.design.coldFlow })).toEqual(['out-of-range']);
  });

  it('outside the fluid range: water above its boiling point at the stated pressure, or below freezing', () => {
    const open = waterUnit({ hot: { kind: 'water', pressure: 101_325 } });
    expect(reasonsFor({ hotIn: 105 }, open)).toEqual(['outside-fluid-range']);
    expect(reasonsFor({ coldIn: -2 })).toEqual(['outside-fluid-range']);
  });

  it('unit off: every measured flow below a twentieth of design, a little below zero included', () => {
    expect(reasonsFor({ hotFlow: 0, coldFlow: 0 })).toEqual(['unit-off']);
    expect(reasonsFor({ hotFlow: -0.02 * unit.design.hotFlow, coldFlow: 0.4 })).toEqual(['unit-off']);
    expect(reasonsFor({ hotFlow: 0.04 * unit.design.hotFlow, coldFlow: Number.NaN })).toEqual(['unit-off']);
  });

  it('flow below turndown: one flow below 30 % of design', () => {
    expect(reasonsFor({ hotFlow: 0.29 * unit.design.hotFlow })).toContain('flow-below-turndown');
    expect(reasonsFor({ coldFlow: 0 })).toEqual(['flow-below-turndown']);
  });

  it('a flow inferred from the balance is judged as a measured one', () => {
    const weak = { hotFlow: Number.NaN, hotOut: state.coldIn + 0.8 };
    expect(reasonsFor({ ...weak, coldOut: state.coldIn + 0.9 })).toContain('flow-below-turndown');
    const strong = { coldFlow: Number.NaN, coldOut: state.coldIn + 1 };
    expect(reasonsFor(strong)).toContain('out-of-range');
  });

  it('a volume flow of a fluid without density is as good as not measured', () => {
    const exchanger = waterUnit({ hot: constantFluid(4180) });
    expect(reasonsFor({ coldFlow: Number.NaN }, exchanger, true)).toEqual(['missing']);
    expect(massFlow(makeFluid(constantFluid(4180)), 0.02, 50)).toBeNaN();
  });

  it('mass flow is volume flow times density: water at 20 °C, 998.2 kg/m³ (IAPWS-95 at 0.1 MPa, to the digit printed)', () => {
    expect(massFlow(makeFluid({ kind: 'water', pressure: 100_000 }), 0.02, 20)).toBeCloseTo(0.02 * 998.2, 2);
  });
});
