import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { frozenSensors } from '@/lib/core/checks/frozen-sensors';
import { nominalSensors } from '@/lib/core/checks/nominal-sensors';
import { screenValues } from '@/lib/core/checks/screen-values';
import { PLACE, unitModel } from '@/lib/core/fouling/unit-model';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { breathingStates, readingsOf, waterUnit, withNoise } from '../../support/forward-readings';

const unit = waterUnit();
const model = unitModel(unit, DEFAULT_CHECK_SETTINGS);
const HOURS = 60 * 24;
const truth = readingsOf(breathingStates(unit, HOURS, (hour) => 5e-8 * hour));
const record = (seed = 11, resolution = 0) => withNoise(truth, unit, seed, resolution);
const marked = (readings: ReadingColumns, nominal = nominalSensors(readings)) =>
  frozenSensors(
    model,
    { readings, flows: screenValues(model, readings, new Uint32Array(readings.time.length)) },
    nominal,
  );
const count = (flags: Uint8Array, from = 0, to = flags.length) =>
  flags.subarray(from, to).reduce((sum, flag) => sum + flag, 0);

function freeze(
  readings: ReadingColumns,
  sensor: 'hotOut' | 'coldIn' | 'coldFlow',
  from: number,
  to: number,
) {
  readings[sensor].fill(readings[sensor][from]!, from, to);
  return readings;
}

describe('a frozen sensor', () => {
  for (const sensor of ['hotOut', 'coldIn', 'coldFlow'] as const) {
    it(`${sensor}: every reading from the first to the last of a standstill of a day is marked, and no other`, () => {
      const flags = marked(freeze(record(), sensor, 500, 524));
      expect(count(flags, 500, 524)).toBe(24);
      expect(count(flags)).toBe(24);
    });
  }

  it('that never comes back is marked to the end of the record', () => {
    const flags = marked(freeze(record(), 'hotOut', 700, HOURS));
    expect(count(flags, 700)).toBe(HOURS - 700);
  });

  it('is not claimed below the frozen hours', () => {
    expect(count(marked(freeze(record(), 'hotOut', 500, 508)))).toBe(0);
    expect(count(marked(freeze(record(), 'hotOut', 500, 510)))).toBe(10);
  });

  it('is found across readings in which it is missing', () => {
    const readings = freeze(record(), 'hotOut', 500, 524);
    readings.hotOut[510] = Number.NaN;
    expect(count(marked(readings), 500, 524)).toBe(24);
  });

  it('is not claimed while nothing else moves: a unit at a standstill', () => {
    const readings = record();
    for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut', 'hotFlow', 'coldFlow'] as const) {
      readings[sensor].fill(readings[sensor][600]!, 600, 648);
    }
    expect(count(marked(readings))).toBe(0);
  });
});

describe('a sensor that only looks frozen', () => {
  it('is one of coarse resolution whose standstills are usual', () => {
    const readings = record(5, 1);
    expect(count(marked(readings)) / HOURS).toBeLessThan(0.005);
  });

  it('is a nominal flow that somebody typed in, constant or changed now and then', () => {
    const readings = record();
    readings.hotFlow.fill(20);
    expect(nominalSensors(readings)).toBe(1 << PLACE.hotFlow);
    readings.hotFlow.fill(21, 700);
    expect(nominalSensors(readings)).toBe(1 << PLACE.hotFlow);
    expect(count(marked(readings))).toBe(0);
  });

  it('which an excerpt of the record cannot tell: there the caller says what is nominal', () => {
    const excerpt = freeze(record(), 'hotOut', 0, HOURS);
    expect(nominalSensors(excerpt)).toBe(1 << PLACE.hotOut);
    expect(count(marked(excerpt, 0))).toBe(HOURS);
  });

  it('a sensor that is missing now and then is nominal only by its changes', () => {
    const readings = record();
    readings.coldIn.fill(Number.NaN, 100, 200);
    expect(nominalSensors(readings)).toBe(0);
  });
});
