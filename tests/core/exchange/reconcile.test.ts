import { describe, expect, it } from 'vitest';
import {
  BALANCE_SENSORS,
  type BalanceStreams,
  balanceBuffers,
  CHI_SQUARED,
  IMBALANCE,
  IMBALANCE_VARIANCE,
  reconcileBalance,
} from '@/lib/core/exchange/reconcile';

/** Constant specific heat c, or one that grows with temperature: h = c·(T + growth·T²/2). */
const curve = (c: number, growth = 0) => ({
  enthalpy: (t: number) => c * (t + (growth * t * t) / 2),
  slope: (t: number) => c * (1 + growth * t),
});
const streams = (hot: ReturnType<typeof curve>, cold: ReturnType<typeof curve>): BalanceStreams => ({
  hotIn: hot,
  hotOut: hot,
  coldIn: cold,
  coldOut: cold,
});
const water = streams(curve(4180), curve(4180));

function reconciled(given: BalanceStreams, measured: number[], uncertainty: number[]) {
  const buffers = balanceBuffers();
  buffers.measured.set(measured);
  buffers.uncertainty.set(uncertainty);
  const isClosed = reconcileBalance(given, buffers);
  return { isClosed, ...buffers };
}

function imbalanceOf(given: BalanceStreams, x: Float64Array): { imbalance: number; duty: number } {
  const hot = x[4]! * (given.hotIn.enthalpy(x[0]!) - given.hotOut.enthalpy(x[1]!));
  const cold = x[5]! * (given.coldOut.enthalpy(x[3]!) - given.coldIn.enthalpy(x[2]!));
  return { imbalance: hot - cold, duty: (hot + cold) / 2 };
}

const OFF = [82.3, 59.1, 20.4, 47.2, 2.1, 1.7];
const SIGMA = [0.2, 0.3, 0.2, 0.25, 0.04, 0.05];

describe('reconciling one heat balance', () => {
  it('holds the measurements in the order of its sensors', () => {
    expect(BALANCE_SENSORS).toEqual(['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow']);
  });

  it('leaves a closed balance as it is, with no imbalance', () => {
    const result = reconciled(water, [50, 40, 30, 40, 1, 1], SIGMA);
    expect(result.isClosed).toBe(true);
    expect([...result.reconciled]).toEqual([50, 40, 30, 40, 1, 1]);
    expect(result.statistics[IMBALANCE]).toBe(0);
    expect(result.statistics[CHI_SQUARED]).toBe(0);
  });

  it('closes to 1e-12 of the duty, also with specific heats that vary', () => {
    for (const given of [water, streams(curve(2000, 0.002), curve(4180, -0.0004))]) {
      const result = reconciled(given, given === water ? OFF : [82.3, 59.1, 20.4, 27.9, 2.1, 3.0], SIGMA);
      const { imbalance, duty } = imbalanceOf(given, result.reconciled);
      expect(result.isClosed).toBe(true);
      expect(Math.abs(imbalance / duty)).toBeLessThan(1e-12);
    }
  });

  it('is the least adjustment: proportional to variance times derivative of the balance (stationary point)', () => {
    const { measured, reconciled: state, uncertainty, gradient } = reconciled(water, OFF, SIGMA);
    const multipliers = [0, 1, 2, 3, 4, 5].map(
      (k) => (measured[k]! - state[k]!) / (uncertainty[k]! ** 2 * gradient[k]!),
    );
    for (const multiplier of multipliers) expect(multiplier / multipliers[0]!).toBeCloseTo(1, 7);
  });

  it('needs no larger sum of squares than any neighbour that closes the balance too', () => {
    const { reconciled: state } = reconciled(water, OFF, SIGMA);
    const cost = (x: ArrayLike<number>) =>
      SIGMA.reduce((sum, sigma, k) => sum + ((x[k]! - OFF[k]!) / sigma) ** 2, 0);
    const least = cost(state);
    for (let k = 0; k < 5; k++) {
      for (const move of [-0.3, 0.3]) {
        const other = Float64Array.from(state);
        other[k] = other[k]! + move * SIGMA[k]!;
        // The cold flow takes up what the move opens.
        other[5] = (other[4]! * (other[0]! - other[1]!)) / (other[3]! - other[2]!);
        expect(cost(other)).toBeGreaterThan(least);
      }
    }
  });

  it('gives two duties of known uncertainty their inverse-variance mean, where only the flows are uncertain', () => {
    const measured = [60, 50, 20, 30, 1.05, 0.97];
    const result = reconciled(water, measured, [0, 0, 0, 0, 0.01, 0.02]);
    // Equal spans: both flows become the weighted mean of 1.05 and 0.97 with weights 4 : 1.
    expect(result.reconciled[4]).toBeCloseTo((4 * 1.05 + 0.97) / 5, 13);
    expect(result.reconciled[5]).toBeCloseTo((4 * 1.05 + 0.97) / 5, 13);
    expect([...result.reconciled.slice(0, 4)]).toEqual(measured.slice(0, 4));
  });

  it('states the imbalance, its variance by first-order propagation and χ² as measured', () => {
    const { statistics } = reconciled(water, [60, 50, 20, 31, 1, 1], [0.1, 0.1, 0.1, 0.1, 0.01, 0.02]);
    const variance = 4180 ** 2 * (4 * 0.1 ** 2 + (10 * 0.01) ** 2 + (11 * 0.02) ** 2);
    expect(statistics[IMBALANCE]).toBeCloseTo(-4180, 8);
    expect(statistics[IMBALANCE_VARIANCE]! / variance).toBeCloseTo(1, 12);
    expect(statistics[CHI_SQUARED]! / (4180 ** 2 / variance)).toBeCloseTo(1, 12);
  });

  it('takes a condensing stream through its own enthalpy at the inlet', () => {
    const vapour = { enthalpy: (t: number) => 2_500_000 + 1800 * t, slope: () => 1800 };
    const given: BalanceStreams = { ...water, hotIn: vapour };
    const result = reconciled(
      given,
      [120, 118, 20, 70, 0.1, 1],
      SIGMA.map((sigma, k) => (k < 4 ? sigma : 0.02)),
    );
    const { imbalance, duty } = imbalanceOf(given, result.reconciled);
    expect(result.isClosed).toBe(true);
    expect(Math.abs(imbalance / duty)).toBeLessThan(1e-12);
    expect(result.reconciled[1]).toBeLessThan(120);
  });

  it('closes where the duty nearly vanishes', () => {
    const given = streams(curve(4180, 1e-4), curve(4180, 1e-4));
    const result = reconciled(given, [50.001, 50, 30, 30.0015, 1, 1], SIGMA);
    expect(result.isClosed).toBe(true);
    expect(Math.abs(imbalanceOf(given, result.reconciled).imbalance)).toBeLessThan(1e-6);
  });

  it('infers a sensor of boundless uncertainty from the others, and leaves those as they are', () => {
    const result = reconciled(water, [60, 50, 20, 30, 1.2, 1], [0.1, 0.1, 0.1, 0.1, 0.01, 1e6]);
    expect(result.isClosed).toBe(true);
    expect(result.reconciled[5]).toBeCloseTo(1.2, 8);
    expect(result.reconciled[0]).toBeCloseTo(60, 8);
    expect(result.statistics[CHI_SQUARED]).toBeLessThan(1e-9);
  });

  it('has no state where no sensor may move, unless the balance is closed already', () => {
    const stuck = reconciled(water, OFF, [0, 0, 0, 0, 0, 0]);
    expect(stuck.isClosed).toBe(false);
    expect([...stuck.reconciled].every(Number.isNaN)).toBe(true);
    const rounding = reconciled(water, [60.1, 50.1, 20.3, 30.3, 1, 1], [0, 0, 0, 0, 0, 0]);
    expect(rounding.isClosed).toBe(true);
    expect(rounding.reconciled[0]).toBe(60.1);
  });

  it('has no state where a temperature is outside the range of its fluid', () => {
    const narrow = { enthalpy: (t: number) => (t < 80 ? 4180 * t : Number.NaN), slope: () => 4180 };
    const result = reconciled({ ...water, hotIn: narrow }, OFF, SIGMA);
    expect(result.isClosed).toBe(false);
    expect([...result.reconciled].every(Number.isNaN)).toBe(true);
  });
});
