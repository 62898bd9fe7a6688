import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { type SpikeInput, spikes } from '@/lib/core/checks/spikes';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { unitModel } from '@/lib/core/fouling/unit-model';
import { hampelSpikes } from '@/lib/core/stats/hampel';
import {
  breathingStates,
  DAY_MS,
  readingsOf,
  solveForward,
  waterUnit,
  withNoise,
} from '../../support/forward-readings';

const unit = waterUnit();
const model = unitModel(unit, DEFAULT_CHECK_SETTINGS);
const HOURS = 20 * 24;
const truth = readingsOf(breathingStates(unit, HOURS, () => 5e-5));

function input(seed = 3): SpikeInput {
  const readings = withNoise(truth, unit, seed);
  return {
    time: readings.time,
    columns: BALANCE_SENSORS.map((sensor) => readings[sensor]),
    rows: Int32Array.from({ length: HOURS }, (_, i) => i),
    reach: 3 * DAY_MS,
  };
}
const at = (flags: Uint8Array) => [...flags.keys()].filter((i) => flags[i] === 1);

describe('a spike', () => {
  it('is one sensor far from its neighbours, alone', () => {
    const made = input();
    made.columns[1]![100]! += 8;
    made.columns[5]![200]! *= 1.6;
    expect(at(spikes(model, made))).toEqual([100, 200]);
  });

  it('is not a change of load, which moves other sensors with it', () => {
    const made = input();
    const base = { ...unit.design, fouling: 5e-5 };
    const jump = solveForward(unit, { ...base, hotFlow: 1.8 * base.hotFlow });
    [jump.hotIn, jump.hotOut, jump.coldIn, jump.coldOut, jump.hotFlow, jump.coldFlow].forEach(
      (value, place) => {
        made.columns[place]![100] = value;
      },
    );
    expect(at(spikes(model, made))).toEqual([]);
  });

  it('is not a step that stays', () => {
    const made = input();
    made.columns[5]!.fill(35, 240);
    expect(at(spikes(model, made))).toEqual([]);
  });

  it('is not the noise of a sensor: none on clean readings', () => {
    expect(at(spikes(model, input(17)))).toEqual([]);
  });

  it('is not judged with fewer than five values around it, nor from neighbours beyond the reach', () => {
    const made = input();
    made.columns[1]![100]! += 8;
    expect(at(spikes(model, { ...made, rows: Int32Array.of(99, 100, 101, 102) }))).toEqual([]);
    expect(at(spikes(model, { ...made, reach: 1 }))).toEqual([]);
    expect(at(spikes(model, { ...made, rows: Int32Array.of(98, 99, 100, 101, 102) }))).toEqual([100]);
  });

  it('is found on a process that moves by more than the spike within the window', () => {
    const made = input();
    for (let i = 0; i < HOURS; i++) made.columns[0]![i]! += 4 * Math.sin((2 * Math.PI * i) / 24);
    made.columns[0]![100]! += 9;
    expect(at(spikes(model, made))).toEqual([100]);
  });

  it('of two readings in a row is found too', () => {
    const made = input();
    made.columns[3]![100]! += 12;
    made.columns[3]![101]! += 12;
    expect(at(spikes(model, made))).toEqual([100, 101]);
  });

  it('agrees with the plain Hampel identifier where a value stands out from a quiet sensor', () => {
    const made = input(29);
    const column = made.columns[0]!.map((_, i) => 80 + 0.05 * Math.sin(i * i));
    for (let i = 7; i < HOURS; i += 41) column[i]! += i % 2 === 0 ? 2.5 : -2.5;
    column[50] = Number.NaN;
    const alone = {
      ...made,
      columns: made.columns.map((own, place) => (place === 0 ? column : own.map(() => Number.NaN))),
    };
    const { spikeHalfWindow, spikeThreshold } = DEFAULT_CHECK_SETTINGS;
    const kept = Int32Array.from(made.rows.filter((row) => !Number.isNaN(column[row]!)));
    const values = Float64Array.from(kept, (row) => column[row]!);
    const plain = hampelSpikes(values, spikeHalfWindow, { threshold: spikeThreshold, scaleFloor: 0.2 });
    expect(at(spikes(model, alone))).toEqual(at(plain).map((position) => kept[position]!));
    expect(at(plain).length).toBeGreaterThan(5);
  });
});
