import { describe, expect, it } from 'vitest';
import { type CleanedCycle, type CleaningResult, cleaningResults } from '@/lib/core/cycles/cleaning-result';
import { splitCycles } from '@/lib/core/cycles/split-cycles';
import { type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { FIRST_DAY } from '../../support/daily-record';
import { DAY_MS } from '../../support/forward-readings';

const RANDOM_PART = 3e-6;
const SYSTEMATIC = 4e-6;
const WATTS_PER_FOULING = 1e9;
const SECONDS_PER_DAY = 86_400;

/** Every fouling loses duty in proportion, whatever the day. */
const wonDuty = (daily: DailyColumns) => (row: number, fouling: number) =>
  WATTS_PER_FOULING * (fouling - daily.foulingResistance[row]!);

/** Daily figures with a fouling by day of the record, NaN where none. */
function record(days: number, fouling: (day: number) => number): DailyColumns {
  const daily = makeDailyColumns(days);
  for (let row = 0; row < days; row++) {
    daily.day[row] = FIRST_DAY + row;
    daily.foulingResistance[row] = fouling(row);
    if (Number.isNaN(fouling(row))) continue;
    daily.firstAccepted[row] = (FIRST_DAY + row) * DAY_MS;
    daily.lastAccepted[row] = (FIRST_DAY + row) * DAY_MS + 23 * 3_600_000;
    daily.foulingResistanceUncertainty[row] = Math.hypot(RANDOM_PART, SYSTEMATIC);
    daily.foulingResistanceSystematic[row] = SYSTEMATIC;
  }
  return daily;
}

/** Cycles between cleanings at midnight before the given days of the record. */
function cyclesOf(daily: DailyColumns, ...days: number[]): CleanedCycle[] {
  const cleanings = days.map((day) => ({ at: (FIRST_DAY + day) * DAY_MS, localDay: FIRST_DAY + day }));
  return splitCycles(daily, cleanings).map((span) => ({ ...span, smoothAtStart: null, smoothAtEnd: null }));
}
const resultsOf = (daily: DailyColumns, ...days: number[]) =>
  cleaningResults(daily, cyclesOf(daily, ...days), wonDuty(daily));
const sawtooth = (day: number) => (day < 100 ? 2e-4 : day < 200 ? 5e-5 : 2.1e-4);

describe('result of a cleaning', () => {
  it('is what it recovered, the share of the fouling, and what is left', () => {
    const [{ at, localDay, effect, reason }] = resultsOf(record(150, sawtooth), 100) as [CleaningResult];
    expect({ at, localDay, reason }).toEqual({
      at: (FIRST_DAY + 100) * DAY_MS,
      localDay: FIRST_DAY + 100,
      reason: null,
    });
    expect(effect).toMatchObject({ before: 2e-4, after: 5e-5, daysUntilBack: null });
    expect(effect!.recovered).toBeCloseTo(1.5e-4, 15);
    expect(effect!.shareRecovered).toBeCloseTo(0.75, 12);
    expect(effect!.dutyRecovered).toBeCloseTo(1.5e5, 6);
    expect(effect!.isPartial).toBe(true);
  });

  it('is as uncertain as five medians, the systematic part cancelling in the difference and moving the share', () => {
    const { effect } = resultsOf(record(150, sawtooth), 100)[0]!;
    // π/2·σ²/n, n five figures of autocorrelation 0 (a record without scatter has none).
    const own = RANDOM_PART * Math.sqrt(Math.PI / 2 / 5);
    expect(effect!.recoveredUncertainty).toBeCloseTo(own * Math.SQRT2, 12);
    expect(effect!.beforeUncertainty).toBeCloseTo(Math.hypot(own, SYSTEMATIC), 12);
    // ∂s/∂after = −1/b, ∂s/∂before = a/b², and both moved alike: −s/b.
    const expected = Math.hypot(own, 0.25 * own, 0.75 * SYSTEMATIC) / 2e-4;
    expect(effect!.shareRecoveredUncertainty).toBeCloseTo(expected, 9);
  });

  it('has an uncertainty that repeated records bear out', () => {
    const random = makeRandom(11);
    const found = Array.from({ length: 300 }, () => {
      const noisy = record(150, (day) => sawtooth(day) + RANDOM_PART * random.normal());
      return resultsOf(noisy, 100)[0]!.effect!;
    });
    const squares = found.reduce((sum, { recovered }) => sum + (recovered - 1.5e-4) ** 2, 0);
    const stated = found.reduce((sum, own) => sum + own.recoveredUncertainty ** 2, 0);
    // Ratio of variances over 300 records: ± 8 % at one standard deviation. Stated rather more than less.
    expect(squares / stated).toBeGreaterThan(0.5);
    expect(squares / stated).toBeLessThan(1.2);
  });

  it('takes smooth levels where they are given', () => {
    const daily = record(150, sawtooth);
    const [first, second] = cyclesOf(daily, 100);
    const { effect } = cleaningResults(
      daily,
      [
        { ...first!, smoothAtEnd: { value: 2.2e-4, uncertainty: 2e-6 } },
        { ...second!, smoothAtStart: { value: 3e-5, uncertainty: 1e-6 } },
      ],
      wonDuty(daily),
    )[0]!;
    expect(effect!.recovered).toBeCloseTo(1.9e-4, 15);
    expect(effect!.recoveredUncertainty).toBeCloseTo(Math.sqrt(5) * 1e-6, 12);
  });

  it('is worth the duty won on each day with a figure, until the next cleaning', () => {
    const isMissing = (day: number) => day >= 120 && day < 130;
    const daily = record(300, (day) => (isMissing(day) ? Number.NaN : sawtooth(day)));
    const [first, second] = resultsOf(daily, 100, 180);
    expect(first!.effect).toMatchObject({ daysCounted: 70, daysElapsed: 80 });
    expect(first!.effect!.energySoFar! / (70 * 1.5e5 * SECONDS_PER_DAY)).toBeCloseTo(1, 12);
    // Days 180 to 199 as before, then 100 of a fouling 1.6e-4 above it.
    expect(second!.effect).toMatchObject({ daysCounted: 120, daysElapsed: 120 });
    expect(second!.effect!.energySoFar! / (-100 * 1.6e5 * SECONDS_PER_DAY)).toBeCloseTo(1, 12);
  });

  it('counts the days until the fouling was back at its level before', () => {
    const { effect } = resultsOf(
      record(300, (day) => (day < 100 ? 9.95e-5 : 1e-6 * (day - 100))),
      100,
    )[0]!;
    expect(effect!.daysUntilBack).toBe(100);
    expect(effect!.isPartial).toBe(false);
  });

  it('has no share where the unit was not significantly fouled', () => {
    const { effect } = resultsOf(
      record(150, () => 1.9 * SYSTEMATIC),
      100,
    )[0]!;
    expect(effect).toMatchObject({ shareRecovered: null, shareRecoveredUncertainty: null, isPartial: null });
    expect(effect!.recovered).toBe(0);
  });

  it('is there for each cleaning inside the record, and not for one before it', () => {
    expect(resultsOf(record(300, sawtooth), -20, 100, 200)).toHaveLength(2);
    expect(resultsOf(record(300, sawtooth))).toEqual([]);
  });
});

describe('a cleaning has no result', () => {
  const without = (from: number, to: number) => (day: number) =>
    day >= from && day < to ? Number.NaN : sawtooth(day);

  it.each([
    [
      'no figure since the one before',
      300,
      without(100, 140),
      [100, 140],
      ['no-figures-between', 'no-figures-between'],
    ],
    [
      'too few figures since the one before',
      300,
      without(100, 138),
      [100, 140],
      ['too-few-after', 'too-few-before'],
    ],
    ['too few figures before it', 300, without(0, 98), [100], ['too-few-before']],
    ['none in the record before it', 300, without(0, 100), [100], ['too-few-before']],
    ['too few figures after it', 102, sawtooth, [100], ['too-few-after']],
    ['figures only long before it', 300, without(50, 100), [100], ['too-few-before']],
  ] as const)('with %s', (_, days, fouling, cleanings, reasons) => {
    const results = resultsOf(record(days, fouling), ...cleanings);
    expect(results.map(({ effect }) => effect)).toEqual(reasons.map(() => null));
    expect(results.map(({ reason }) => reason)).toEqual(reasons);
  });
});
