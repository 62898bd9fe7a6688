import { describe, expect, it } from 'vitest';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { demoPlans } from '@/seed/demo-plan';
import { generateReadings } from '@/seed/generate/generate-readings';
import { PLANTED_BIT } from '@/seed/generate/plant-faults';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';
import { planUnit, USUAL_MEASUREMENT } from '@/seed/generate/unit-plan';

const END = Date.parse('2026-11-25T08:00:00Z');
const HOUR = 3_600_000;
const span = (days: number, seed = 7) => ({ start: END - days * MS_PER_DAY, end: END, stepMs: HOUR, seed });
const unit = demoPlans().find(({ unit: { tag } }) => tag === 'SC-152')!.unit;
const usual = planUnit({
  unit,
  first: { ageDays: 10, growth: { kind: 'linear', limitAtDays: 100 } },
  measurement: { ...USUAL_MEASUREMENT, gapsPerMonth: 0 },
});

describe('generated readings', () => {
  it('are the same for the same plan, span and seed, and others for another seed', () => {
    const [one, again, other] = [span(40), span(40), span(40, 8)].map((at) => generateReadings(usual, at));
    expect(again).toEqual(one);
    expect(other!.readings.hotOut).not.toEqual(one!.readings.hotOut);
  });

  it('keep how the unit was run when only the sensors change', () => {
    const noisy = generateReadings(usual, span(40)).truth;
    const measurement = { ...usual.measurement, noise: 0, bias: 0, unmeasured: ['hotFlow' as const] };
    const quiet = generateReadings({ ...usual, measurement }, span(40)).truth;
    expect(quiet.duty).toEqual(noisy.duty);
  });

  it('come once per step from start to end, both included', () => {
    const { readings } = generateReadings(usual, span(3));
    expect(readings.time.length).toBe(73);
    expect(readings.time[0]).toBe(END - 3 * MS_PER_DAY);
    expect(readings.time.at(-1)).toBe(END);
  });

  it('are logged in the units of the datasheet to the historian’s last digit', () => {
    const { readings } = generateReadings(usual, span(3));
    for (const value of readings.hotIn)
      expect(Math.abs(value * 10 - Math.round(value * 10))).toBeLessThan(1e-9);
  });

  it('scatter about the truth by the sensors’ own figures', () => {
    const plan = { ...usual, measurement: { ...usual.measurement, noise: 1, bias: 0, isRounded: false } };
    const perfect = { ...plan, measurement: { ...plan.measurement, noise: 0 } };
    const [noisy, exact] = [plan, perfect].map((each) => generateReadings(each, span(200)).readings);
    const errors = noisy!.coldIn.map((value, i) => value - exact!.coldIn[i]!);
    const deviation = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    // 0.2 K with half its variance random: 0.2·√0.5 = 0.1414 K; 4,800 readings give it to 1 % (one deviation).
    expect(Math.abs(deviation / 0.141_42 - 1)).toBeLessThan(0.04);
  });

  it('show no flow and no duty while a batch unit rests', () => {
    const plan = { ...usual, operation: { ...usual.operation, batchHours: [[6, 18]] as [number, number][] } };
    const { readings, truth } = generateReadings(plan, span(10));
    const rest = [...truth.isRunning.keys()].filter((i) => truth.isRunning[i] === 0);
    expect(rest.length).toBeGreaterThan(100);
    for (const i of rest) {
      expect(readings.hotFlow[i]! / Math.max(...readings.hotFlow)).toBeLessThan(0.01);
      expect(truth.duty[i]).toBeNaN();
    }
  });

  it('refuse a span that cannot be', () => {
    expect(() => generateReadings(usual, { ...span(1), stepMs: 0 })).toThrow(RangeError);
    expect(() => generateReadings(usual, { ...span(1), start: END + 1 })).toThrow(RangeError);
  });
});

describe('planted faults', () => {
  const between = { fromDaysAgo: 10, toDaysAgo: 5 };
  const clean = generateReadings(usual, span(20));
  const spoiled = (faults: Parameters<typeof planUnit>[0]['faults']) =>
    generateReadings({ ...usual, faults: faults! }, span(20));
  const inside = (time: number) => time >= END - 10 * MS_PER_DAY && time <= END - 5 * MS_PER_DAY;

  it('leave every reading outside their days as it was', () => {
    const { readings } = spoiled([
      { kind: 'dead', sensor: 'hotIn', as: 'frozen', ...between },
      { kind: 'drift', sensor: 'coldFlow', perDay: 0.01, ...between },
      { kind: 'swapped', sensors: ['hotOut', 'coldIn'], ...between },
    ]);
    for (const sensor of SENSORS) {
      for (const [i, value] of readings[sensor].entries()) {
        if (!inside(readings.time[i]!)) expect(value).toBe(clean.readings[sensor][i]);
      }
    }
  });

  it('freeze a sensor at the value it had, or lose it', () => {
    const frozen = spoiled([{ kind: 'dead', sensor: 'hotIn', as: 'frozen', ...between }]);
    const missing = spoiled([{ kind: 'dead', sensor: 'hotIn', as: 'missing', ...between }]);
    const rows = [...frozen.readings.time.keys()].filter((i) => inside(frozen.readings.time[i]!));
    expect(new Set(rows.map((i) => frozen.readings.hotIn[i])).size).toBe(1);
    for (const i of rows) {
      expect(missing.readings.hotIn[i]).toBeNaN();
      expect(missing.truth.planted[i]).toBe(PLANTED_BIT.dead);
    }
  });

  it('exchange two sensors', () => {
    const { readings } = spoiled([{ kind: 'swapped', sensors: ['hotIn', 'hotOut'], ...between }]);
    const row = readings.time.findIndex(inside);
    expect(readings.hotIn[row]).toBe(clean.readings.hotOut[row]);
    expect(readings.hotOut[row]).toBe(clean.readings.hotIn[row]);
  });

  it('let a flow meter creep by its share a day', () => {
    const { readings } = spoiled([{ kind: 'drift', sensor: 'hotFlow', perDay: 0.01, ...between }]);
    const last = readings.time.findLastIndex(inside);
    expect(readings.hotFlow[last]! / clean.readings.hotFlow[last]!).toBeCloseTo(1.05, 9);
  });

  it('throw spikes about as often as planned', () => {
    const { truth } = spoiled([
      { kind: 'spikes', sensor: 'hotOut', perMonth: 60, size: 15, fromDaysAgo: 20, toDaysAgo: 0 },
    ]);
    const spikes = truth.planted.filter((bits) => bits === PLANTED_BIT.spikes).length;
    // 40 expected, Poisson: 20 to 65 is beyond three deviations either way.
    expect(spikes).toBeGreaterThan(20);
    expect(spikes).toBeLessThan(65);
  });

  it('leave no reading in a gap and no flow while out of service', () => {
    const gap = spoiled([{ kind: 'gap', ...between }]);
    expect([...gap.readings.time].filter((time) => inside(time) && time < END - 5 * MS_PER_DAY)).toEqual([]);
    const stopped = spoiled([{ kind: 'out-of-service', ...between }]);
    const row = stopped.readings.time.findIndex(inside);
    expect(stopped.truth.isRunning[row]).toBe(0);
  });
});
