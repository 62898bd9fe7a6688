import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { REASON_BIT, type Reason } from '@/lib/core/checks/reasons';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { makeWander } from '@/seed/generate/wander';
import { EPOCH, HOUR_MS, solveForward, waterUnit } from '../../support/forward-readings';

const unit = waterUnit();

/** A plant and its logger: how far it wanders, the sensors' noise, and how coarsely or seldom values are kept. */
type Logger = {
  perHour: number;
  hours: number;
  /** Multiples: of 2 K and 5 % of wander, of the stated standard uncertainties. */
  wander: number;
  noise: number;
  /** Rounded to this [K, kg/s]. */
  resolution?: number;
  /** By exception: a value is kept until it has changed by this [K, kg/s]. */
  deadbands?: [temperature: number, flow: number];
  /** Load changes at once, on average this often [h]. */
  stepEvery?: number;
};

function record(logger: Logger, seed: number): ReadingColumns {
  const { perHour, hours, wander, noise, resolution, deadbands, stepEvery } = logger;
  const random = makeRandom(seed);
  const next = [6, 12, 30, 48].map((correlation) => makeWander(random, 1 / perHour, correlation));
  const readings = makeReadingColumns(hours * perHour);
  const kept = new Array<number>(BALANCE_SENSORS.length).fill(Number.NaN);
  let load = 1;
  for (let i = 0; i < readings.time.length; i++) {
    if (stepEvery !== undefined && random.uniform() < 1 / (stepEvery * perHour))
      load = 0.7 + 0.5 * random.uniform();
    const state = solveForward(unit, {
      hotIn: 80 + 2 * wander * next[0]!(),
      coldIn: 20 + 2 * wander * next[1]!(),
      hotFlow: 20 * load * (1 + 0.05 * wander * next[2]!()),
      coldFlow: 25 * (1 + 0.05 * wander * next[3]!()),
      fouling: 5e-5,
    });
    readings.time[i] = EPOCH + (i * HOUR_MS) / perHour;
    BALANCE_SENSORS.forEach((sensor, place) => {
      const uncertainty = place < 4 ? 0.2 : 0.02 * state[sensor];
      let value = state[sensor] + noise * uncertainty * random.normal();
      if (resolution !== undefined) value = Math.round(value / resolution) * resolution;
      const deadband = deadbands?.[place < 4 ? 0 : 1] ?? 0;
      if (Math.abs(value - kept[place]!) < deadband) value = kept[place]!;
      kept[place] = value;
      readings[sensor][i] = value;
    });
  }
  return readings;
}

function share(readings: ReadingColumns, reason: Reason, sets: Reason[] = [reason]): number {
  const bits = sets.reduce((sum, each) => sum | REASON_BIT[each], 0);
  const { reasons } = evaluateReadings({ exchanger: unit, settings: DEFAULT_CHECK_SETTINGS, readings });
  return reasons.filter((mask) => (mask & bits) !== 0).length / reasons.length;
}

const HOURLY = { perHour: 1, hours: 1600 };
const FAST = { perHour: 6, hours: 320 };
const SOUND: [string, Logger][] = [
  ['hourly, fine', { ...HOURLY, wander: 1, noise: 0.5 }],
  ['hourly, rounded to 0.5', { ...HOURLY, wander: 1, noise: 0.3, resolution: 0.5 }],
  ['hourly, rounded to whole numbers', { ...HOURLY, wander: 1, noise: 0.3, resolution: 1 }],
  ['hourly, quiet, rounded to 0.5', { ...HOURLY, wander: 0.15, noise: 0.1, resolution: 0.5 }],
  ['hourly, quiet, rounded to whole numbers', { ...HOURLY, wander: 0.15, noise: 0.1, resolution: 1 }],
  [
    'hourly, quiet, whole numbers, load steps',
    { ...HOURLY, wander: 0.1, noise: 0.1, resolution: 1, stepEvery: 48 },
  ],
  ['hourly, by exception of 0.5 K and 1 %', { ...HOURLY, wander: 0.3, noise: 0.3, deadbands: [0.5, 0.2] }],
  ['hourly, by exception of 1 K and 2 %', { ...HOURLY, wander: 0.3, noise: 0.3, deadbands: [1, 0.5] }],
  ['hourly, by exception of 2 K, flows fine', { ...HOURLY, wander: 0.3, noise: 0.3, deadbands: [2, 0] }],
  ['every ten minutes, rounded to 0.5', { ...FAST, wander: 0.3, noise: 0.2, resolution: 0.5 }],
  ['every ten minutes, by exception of 0.5 K', { ...FAST, wander: 0.3, noise: 0.3, deadbands: [0.5, 0.4] }],
];

describe('a sound record that repeats itself: false alarms in at most 0.5 % of its readings', () => {
  for (const [name, logger] of SOUND) {
    it(name, () => {
      expect(share(record(logger, 111), 'frozen-sensor', ['frozen-sensor', 'spike'])).toBeLessThanOrEqual(
        0.005,
      );
    });
  }
});

describe('a sensor that truly freezes for five days on such a record', () => {
  const rounded: Logger = { ...HOURLY, wander: 1, noise: 0.3, resolution: 0.5 };
  const exception: Logger = { ...HOURLY, wander: 1, noise: 0.3, deadbands: [0.5, 0.2] };
  for (const [name, logger, sensor] of [
    ['rounded to 0.5: hot outlet', rounded, 'hotOut'],
    ['rounded to 0.5: hot flow', rounded, 'hotFlow'],
    ['by exception: hot inlet', exception, 'hotIn'],
    ['by exception: hot flow', exception, 'hotFlow'],
  ] as const) {
    it(`${name}: most of its readings are found`, () => {
      const readings = record({ ...logger, stepEvery: 24 }, 112);
      const starts = [200, 500, 800, 1100, 1400];
      for (const from of starts) readings[sensor].fill(readings[sensor][from]!, from, from + 120);
      const found = share(readings, 'frozen-sensor') * readings.time.length;
      expect(found / (starts.length * 120)).toBeGreaterThan(0.6);
    });
  }
});
