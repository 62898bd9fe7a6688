import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { BALANCE_SENSORS, balanceBuffers } from '@/lib/core/exchange/reconcile';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { explainImbalance, reduceImbalances } from '@/lib/core/fouling/explain-imbalance';
import { soleBiases } from '@/lib/core/fouling/sole-biases';
import { rankSuspects } from '@/lib/core/fouling/suspects';
import { unitModel } from '@/lib/core/fouling/unit-model';
import { type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { breathingStates, readingsOf, solveForward, waterUnit } from '../../support/forward-readings';

const settings = DEFAULT_CHECK_SETTINGS;
const DAYS = 30;
const SEED = 1000;
const DRAWS = 40;
type Balanced = (typeof BALANCE_SENSORS)[number];
/** A thermometer 4 K off, a meter 15 % off: about 15 % of the duty, some six times what the sensors state for the balance. */
const TEMPERATURE_BIAS = 4;
const FLOW_BIAS = 0.15;

const unit = waterUnit();
const model = unitModel(unit, settings);
const varied = readingsOf(breathingStates(unit, DAYS * 24, (hour) => 2e-8 * hour));
const constant = readingsOf(
  Array.from({ length: 240 }, () => solveForward(unit, { ...unit.design, fouling: 5e-5 })),
);

type History = { truth: ReadingColumns; seed: number; biased: Balanced | null; sign?: number };

/** A history with the errors the sensors state, systematic ones drawn once, one sensor biased on top; and the errors drawn. */
function history({ truth, seed, biased, sign = 1 }: History) {
  const random = makeRandom(seed);
  const readings = { ...truth };
  const errors = BALANCE_SENSORS.map((sensor) => {
    const { absolute, relative, systematicShare } = unit.sensors[sensor];
    const own = Math.sqrt(systematicShare) * random.normal();
    const extra = biased === sensor ? sign * (relative === 0 ? TEMPERATURE_BIAS : FLOW_BIAS) : 0;
    readings[sensor] = truth[sensor].map((value) => {
      const sigma = absolute + relative * value;
      const shift = relative === 0 ? extra : extra * value;
      return value + shift + sigma * (own + Math.sqrt(1 - systematicShare) * random.normal());
    });
    return extra + own * (absolute + relative);
  });
  return { readings, errors };
}

function ranking(readings: ReadingColumns) {
  return rankSuspects(
    model,
    readings,
    evaluateReadings({ exchanger: unit, settings, readings, nominal: 0 }),
  )!;
}

describe('suspects over a period', () => {
  it.each(BALANCE_SENSORS.map((sensor) => ({ sensor })))(
    'has a biased $sensor first, or tied with the first, in at least 90 % of histories, and its bias within two uncertainties in 80 %',
    ({ sensor }) => {
      const place = BALANCE_SENSORS.indexOf(sensor);
      let hits = 0;
      let covered = 0;
      let tied = 0;
      for (let draw = 0; draw < DRAWS; draw++) {
        const sign = draw % 2 === 0 ? 1 : -1;
        const { readings, errors } = history({ truth: varied, seed: SEED + draw, biased: sensor, sign });
        const { suspects } = ranking(readings);
        const own = suspects.find((suspect) => suspect.place === place);
        if (own === undefined) continue;
        if (own.isTied) hits++;
        if (Math.abs(own.bias - errors[place]!) < 2 * own.biasUncertainty) covered++;
        tied += suspects.filter(({ isTied }) => isTied).length;
      }
      expect(hits).toBeGreaterThanOrEqual(0.9 * DRAWS);
      expect(covered).toBeGreaterThanOrEqual(0.8 * DRAWS);
      // Only the other sensor of its pair looks the same through a balance.
      expect(tied / hits).toBeLessThan(2.5);
    },
  );

  it('suspects nobody in at least 95 % of histories without a bias', () => {
    const draws = 200;
    let sound = 0;
    for (let draw = 0; draw < draws; draw++) {
      const { readings } = history({ truth: varied, seed: 2 * SEED + draw, biased: null });
      const found = ranking(readings);
      if (!found.isOff && found.suspects.length === 0) sound++;
    }
    expect(sound).toBeGreaterThanOrEqual(0.95 * draws);
  });

  it('ties all six where conditions never change', () => {
    for (const biased of BALANCE_SENSORS) {
      const { suspects } = ranking(history({ truth: constant, seed: SEED, biased }).readings);
      expect(suspects).toHaveLength(6);
      expect(suspects.every(({ isTied }) => isTied)).toBe(true);
    }
  });

  it('says nothing with less than two days of balances, nor where one value is inferred', () => {
    const evaluate = (readings: ReadingColumns) =>
      rankSuspects(model, readings, evaluateReadings({ exchanger: unit, settings, readings, nominal: 0 }));
    expect(evaluate(sliceReadings(varied, 0, 40))).toBeNull();
    expect(evaluate({ ...varied, hotFlow: varied.hotFlow.map(() => Number.NaN) })).toBeNull();
  });

  it('looks at the last 30 days only', () => {
    const states = breathingStates(unit, 40 * 24, () => 0);
    const readings = readingsOf(states);
    for (let i = 0; i < 9 * 24; i++) readings.hotFlow[i]! *= 1.2;
    expect(ranking(readings)).toMatchObject({ isOff: false, readings: 30 * 24 + 1 });
  });
});

describe('explaining imbalances', () => {
  it('leaves the χ² of generalised least squares with the full covariance matrix', () => {
    const random = makeRandom(SEED);
    const n = 30;
    const shapes = [0, 1, 2].map((j) =>
      Float64Array.from({ length: n }, (_, i) => 1 + j * 0.3 * Math.sin(i) + 0.2 * random.normal()),
    );
    const systematic = [0.5, 0, 0.8];
    const imbalance = Float64Array.from({ length: n }, (_, i) => 2 * shapes[1]![i]! + random.normal());
    const variance = 1.7;
    const covariance = (without: number) =>
      shapes[0]!
        .map((_, i) => i)
        .reduce<number[][]>((rows, i) => {
          rows.push(
            Array.from({ length: n }, (_, j) =>
              shapes.reduce(
                (sum, shape, k) => sum + (k === without ? 0 : systematic[k]! ** 2 * shape[i]! * shape[j]!),
                i === j ? variance : 0,
              ),
            ),
          );
          return rows;
        }, []);
    for (const suspect of [0, 1, 2]) {
      const given = covariance(suspect);
      const shape = shapes[suspect]!;
      const byImbalance = solved(given, imbalance);
      const byShape = solved(given, shape);
      const precision = dot(shape, byShape);
      const bias = dot(shape, byImbalance) / precision;
      const found = explainImbalance(reduceImbalances({ shapes, imbalance, systematic }), suspect, variance);
      expect(found.bias).toBeCloseTo(bias, 9);
      expect(found.biasUncertainty).toBeCloseTo(1 / Math.sqrt(precision), 9);
      expect(found.chiSquared).toBeCloseTo(dot(imbalance, byImbalance) - bias * bias * precision, 8);
    }
    const asStated = explainImbalance(reduceImbalances({ shapes, imbalance, systematic }), -1, variance);
    expect(asStated.chiSquared).toBeCloseTo(dot(imbalance, solved(covariance(-1), imbalance)), 8);
  });
});

describe('the bias of one sensor alone', () => {
  const curve = { enthalpy: (t: number) => 4000 * t, slope: () => 4000 };
  const streams = { hotIn: curve, hotOut: curve, coldIn: curve, coldOut: curve };
  // By hand: hot 2 kg/s over 20 K, cold 1 kg/s over 30 K, so that 40 K·kg/s stand against 30.
  const reading = { measured: [80, 60, 20, 50, 2, 1], uncertainty: [0.5, 0.5, 0.2, 0.2, 0.02, 0.05] };
  const buffers = balanceBuffers();
  buffers.measured.set(reading.measured);
  buffers.uncertainty.set(reading.uncertainty);

  it('is what that sensor would have to read too much, the least in its own uncertainties first', () => {
    const found = soleBiases(streams, buffers);
    const byPlace = (name: Balanced) => found.find(({ place }) => BALANCE_SENSORS[place] === name)!;
    expect(byPlace('hotIn').bias).toBeCloseTo(5, 9);
    expect(byPlace('hotOut').bias).toBeCloseTo(-5, 9);
    expect(byPlace('coldIn').bias).toBeCloseTo(10, 9);
    expect(byPlace('coldOut').bias).toBeCloseTo(-10, 9);
    expect(byPlace('hotFlow').bias).toBeCloseTo(0.5, 9);
    expect(byPlace('coldFlow').bias).toBeCloseTo(-1 / 3, 9);
    expect(found.map(({ place }) => BALANCE_SENSORS[place])[0]).toBe('coldFlow');
    const sizes = found.map(({ inUncertainties }) => Math.abs(inUncertainties));
    expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
  });

  it('leaves out a sensor taken as exact, and one that would leave its fluid’s range', () => {
    buffers.uncertainty[0] = 0;
    const narrow = { enthalpy: (t: number) => (t < 15 ? Number.NaN : 4000 * t), slope: () => 4000 };
    const places = soleBiases({ ...streams, coldIn: narrow }, buffers).map(({ place }) => place);
    expect(places).not.toContain(0);
    expect(places).not.toContain(2);
  });
});

const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);

/** Gaussian elimination on a symmetric positive definite matrix. */
function solved(matrix: number[][], right: Float64Array): Float64Array {
  const rows = matrix.map((row) => [...row]);
  const x = right.slice();
  for (let k = 0; k < x.length; k++) {
    for (let i = k + 1; i < x.length; i++) {
      const factor = rows[i]![k]! / rows[k]![k]!;
      for (let j = k; j < x.length; j++) rows[i]![j]! -= factor * rows[k]![j]!;
      x[i]! -= factor * x[k]!;
    }
  }
  for (let k = x.length - 1; k >= 0; k--) {
    for (let j = k + 1; j < x.length; j++) x[k]! -= rows[k]![j]! * x[j]!;
    x[k]! /= rows[k]![k]!;
  }
  return x;
}
