import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { median } from '@/lib/core/stats/quantile';
import { demoPlans, demoSpan, lastHour } from '@/seed/demo-plan';
import { makeForwardModel, type UnitState } from '@/seed/generate/forward-model';
import { generateReadings } from '@/seed/generate/generate-readings';
import { solveWithValve } from '@/seed/generate/held-outlet';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';
import { withPerfectSensors } from '@/seed/held-out';

const END = lastHour(Date.parse('2026-11-25T08:30:00Z'));
const index = demoPlans().findIndex(({ unit }) => unit.energy?.heldOutlet !== undefined);
const plan = demoPlans()[index]!;
const exchanger = toExchanger(plan.unit);
const LARGEST = exchanger.losses.maximumFlow.hot!;

describe('DH-204, whose pool water a valve holds', () => {
  it('is the one unit of the demonstration with a held outlet', () => {
    expect(demoPlans().filter(({ unit }) => unit.energy?.heldOutlet)).toHaveLength(1);
    expect(plan.unit.tag).toBe('DH-204');
  });

  const { readings, truth } = generateReadings(
    withPerfectSensors({ ...plan, faults: [] }),
    demoSpan(END, index),
  );
  const rows = [...readings.time.keys()].filter((i) => truth.isRunning[i] === 1);
  const evaluation = evaluateReadings({ exchanger, settings: toCheckSettings(plan.unit), readings });

  it('has its outlet at 42 °C wherever the valve is not at one of its ends', () => {
    const isHeld = (i: number) => Math.abs(readings.coldOut[i]! - 42) < 1e-3;
    expect(rows.filter(isHeld).length / rows.length).toBeGreaterThan(0.95);
    const [least, most] = [0.32 * 7.191, 11].map((hourly) => hourly / 3600);
    for (const i of rows.filter((row) => !isHeld(row))) {
      const end = readings.coldOut[i]! < 42 ? most! : least!;
      // The meter shows volume, the valve passes mass: between 65 and 85 °C water changes its density by 1 %.
      expect(readings.hotFlow[i]! / end).toBeGreaterThan(0.985);
      expect(readings.hotFlow[i]! / end).toBeLessThan(1.015);
    }
  });

  it('takes more district heat for the same duty as it fouls', () => {
    const flowIn = (from: number, to: number) =>
      median(
        rows
          .filter((i) => readings.time[i]! >= from && readings.time[i]! < to)
          .map((i) => readings.hotFlow[i]! / truth.duty[i]!),
      );
    const { start } = truth.cycles.at(-1)!;
    const afterCleaning = flowIn(start, start + 10 * MS_PER_DAY);
    expect(flowIn(END - 10 * MS_PER_DAY, END)).toBeGreaterThan(1.05 * afterCleaning);
  });

  it('is evaluated at its true fouling all the same', () => {
    const accepted = rows.filter((i) => evaluation.reasons[i] === 0);
    expect(accepted.length / rows.length).toBeGreaterThan(0.9);
    const errors = accepted.map((i) =>
      Math.abs(evaluation.foulingResistance[i]! - truth.foulingResistance[i]!),
    );
    expect(Math.max(...errors)).toBeLessThan(1e-9 / 1e-3);
  });

  it('lets its outlet go where the valve is fully open, and no further', () => {
    const model = makeForwardModel(exchanger);
    const { hotIn, coldIn, hotFlow, coldFlow } = exchanger.design;
    const state: UnitState = { ...exchanger.design, duty: 0, cleanU: Number.NaN, foulingResistance: 0 };
    expect(solveWithValve(model, Object.assign(state, { hotIn, coldIn, hotFlow, coldFlow }))).toBe(true);
    // Clean and at the conditions of the datasheet the valve stands at the flow of the datasheet.
    expect(state.coldOut).toBeCloseTo(42, 3);
    expect(state.hotFlow / hotFlow).toBeCloseTo(1, 2);
    expect(solveWithValve(model, Object.assign(state, { foulingResistance: 0.002 }))).toBe(true);
    expect(state.hotFlow).toBeCloseTo(LARGEST, 9);
    expect(state.coldOut).toBeLessThan(41);
  });
});
