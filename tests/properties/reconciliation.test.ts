import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import {
  BALANCE_SENSORS,
  balanceBuffers,
  CHI_SQUARED,
  linearise,
  reconcileBalance,
} from '@/lib/core/exchange/reconcile';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { unitModel } from '@/lib/core/fouling/unit-model';
import { waterUnit } from '../support/forward-readings';

const RUNS = { seed: 20_261_125, numRuns: 20_000 };
/** Imbalance left after reconciliation, as a share of the duty. */
const CLOSURE = 1e-9;

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const streams = (
  [
    [
      { kind: 'water', pressure: null },
      { kind: 'water', pressure: null },
    ],
    [
      { kind: 'oil', density: 870, characterisationFactor: 11.8, viscosity: null },
      { kind: 'seawater', salinity: 0.035 },
    ],
    [
      { kind: 'air', pressure: null },
      { kind: 'propylene-glycol', massFraction: 0.4 },
    ],
    [
      { kind: 'steam', pressure: null },
      { kind: 'water', pressure: null },
    ],
  ] as [FluidSpec, FluidSpec][]
).map(
  ([hot, cold]) =>
    unitModel(
      waterUnit({ hot, cold, design: { ...waterUnit().design, cleanU: 500 } }),
      DEFAULT_CHECK_SETTINGS,
    ).streams,
);

/** Six values of a working exchanger whose two duties differ by up to a quarter (more is never excused), with any uncertainties. */
const anyReading = fc.record({
  pair: fc.integer({ min: 0, max: streams.length - 1 }),
  coldIn: between(20, 35),
  rise: between(2, 30),
  approach: between(2, 40),
  drop: between(2, 30),
  coldFlow: between(-1, 2).map((power) => 10 ** power),
  imbalance: between(-0.25, 0.25),
  temperatures: fc.array(between(0.02, 1), { minLength: 4, maxLength: 4 }),
  flows: fc.array(between(0.002, 0.1), { minLength: 2, maxLength: 2 }),
});

describe('reconciliation', () => {
  it('closes the heat balance of any reading to 1e-9 of the duty', () => {
    fc.assert(
      fc.property(anyReading, (given) => {
        const curves = streams[given.pair]!;
        const coldOut = given.coldIn + given.rise;
        const hotOut = coldOut + given.approach;
        const hotIn = hotOut + given.drop;
        const heat = curves.coldOut.enthalpy(coldOut) - curves.coldIn.enthalpy(given.coldIn);
        const perMass = curves.hotIn.enthalpy(hotIn) - curves.hotOut.enthalpy(hotOut);
        const hotFlow = ((given.coldFlow * heat) / perMass) * (1 + given.imbalance);
        const buffers = balanceBuffers();
        buffers.measured.set([hotIn, hotOut, given.coldIn, coldOut, hotFlow, given.coldFlow]);
        buffers.uncertainty.set([
          ...given.temperatures,
          hotFlow * given.flows[0]!,
          given.coldFlow * given.flows[1]!,
        ]);
        expect(reconcileBalance(curves, buffers)).toBe(true);
        const left = linearise(curves, buffers.reconciled, new Float64Array(BALANCE_SENSORS.length));
        const duty = Math.abs(buffers.reconciled[4]! * buffers.gradient[4]!);
        expect(Math.abs(left)).toBeLessThanOrEqual(CLOSURE * duty);
        expect(buffers.statistics[CHI_SQUARED]).toBeGreaterThanOrEqual(0);
      }),
      RUNS,
    );
  });
});
