import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { CHECK_REACH_MS, firstReached } from '@/lib/core/checks/screen';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { unitModel } from '@/lib/core/fouling/unit-model';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom, type Random } from '@/lib/core/stats/random';
import {
  breathingStates,
  DAY_MS,
  EPOCH,
  HOUR_MS,
  readingsOf,
  waterUnit,
  withNoise,
} from '../../support/forward-readings';

const SEED = 2718;
const MINUTE_MS = 60_000;
const unit = waterUnit();
const settings = DEFAULT_CHECK_SETTINGS;
const model = unitModel(unit, settings);
const screened = (readings: ReadingColumns) =>
  evaluateReadings({ exchanger: unit, settings, readings }).reasons;

const copied = (readings: ReadingColumns): ReadingColumns => ({
  ...readings,
  ...Object.fromEntries(BALANCE_SENSORS.map((sensor) => [sensor, readings[sensor].slice()])),
});

/** A record with spikes, standstills and missing values, so that many marks hang on their neighbours. */
function unruly(quiet: ReadingColumns, stepMs: number, random: Random): ReadingColumns {
  const readings = copied(quiet);
  const count = quiet.time.length;
  const somewhere = () => Math.floor(random.uniform() * count);
  for (const sensor of BALANCE_SENSORS) {
    for (let k = 0; k < count / 40; k++) readings[sensor][somewhere()]! *= 1 + 0.1 * random.normal();
    for (let k = 0; k < count / 20; k++) readings[sensor][somewhere()] = Number.NaN;
    const from = somewhere();
    readings[sensor].fill(readings[sensor][from]!, from, from + Math.ceil((10 * HOUR_MS) / stepMs));
  }
  return readings;
}

/** Other values from a row on, as a later import brings them: for one row, or for all that follow. */
function changedFrom(readings: ReadingColumns, row: number, random: Random): ReadingColumns {
  const changed = copied(readings);
  const last = random.uniform() < 0.5 ? row : readings.time.length - 1;
  for (const sensor of BALANCE_SENSORS) {
    for (let i = row; i <= last; i++) changed[sensor][i]! += 3 * random.normal();
  }
  return changed;
}

describe('the first reading whose screening a change can reach', () => {
  it.each([
    ['every minute', MINUTE_MS, 2],
    ['every five minutes', 5 * MINUTE_MS, 6],
    ['every hour', HOUR_MS, 20],
    ['every eight hours', 8 * HOUR_MS, 60],
    ['every day', DAY_MS, 90],
  ])('readings %s: no mark before it changes', (_, stepMs, days) => {
    const random = makeRandom(SEED);
    const states = breathingStates(unit, Math.floor((days * DAY_MS) / stepMs), () => 5e-5);
    const quiet = withNoise(readingsOf(states, stepMs), unit, SEED, 0.1);
    let earlier = 0;
    for (let trial = 0; trial < 120; trial++) {
      const before = unruly(quiet, stepMs, random);
      const row = Math.floor(random.uniform() * before.time.length);
      const since = before.time[row]!;
      const after = changedFrom(before, row, random);
      const first = firstReached(model, before, since);
      expect(firstReached(model, after, since)).toBe(first);
      expect(first).toBeLessThanOrEqual(since);
      expect(first).toBeGreaterThanOrEqual(since - CHECK_REACH_MS);
      const [was, is] = [screened(before), screened(after)];
      const moved = before.time.filter((_, i) => was[i] !== is[i]);
      if (moved[0]! < since) earlier++;
      for (const at of moved) expect(at).toBeGreaterThanOrEqual(first);
    }
    // Else the test would hold of a reach of nothing.
    expect(earlier).toBeGreaterThan(0);
  });

  it('with hourly readings is the day before, of a change at midnight', () => {
    const readings = readingsOf(breathingStates(unit, 20 * 24, () => 5e-5));
    const midnight = EPOCH + 10 * DAY_MS;
    expect(firstReached(model, readings, midnight)).toBe(midnight - DAY_MS);
  });

  it('is the change itself where nothing came before it', () => {
    const readings = readingsOf(breathingStates(unit, 48, () => 5e-5));
    expect(firstReached(model, readings, EPOCH)).toBe(EPOCH);
  });
});
