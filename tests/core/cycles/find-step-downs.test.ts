import { describe, expect, it } from 'vitest';
import { findStepDowns } from '@/lib/core/cycles/find-step-downs';
import { type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { FIRST_DAY } from '../../support/daily-record';
import { DAY_MS } from '../../support/forward-readings';

const ALLOWANCE = 2e-4;
const HOUR_MS = 3_600_000;

/** Days of growth by 1/200 of the allowance a day with noise of 2 %; `change` is added, NaN leaves a day without figure. */
function record(days: number, change: (day: number) => number, seed = 1): DailyColumns {
  const random = makeRandom(seed);
  const daily = makeDailyColumns(days);
  for (let day = 0; day < days; day++) {
    daily.day[day] = FIRST_DAY + day;
    daily.foulingResistance[day] = ALLOWANCE * (day / 200 + 0.02 * random.normal() + change(day));
    if (Number.isNaN(daily.foulingResistance[day]!)) continue;
    daily.firstAccepted[day] = (FIRST_DAY + day) * DAY_MS + HOUR_MS;
    daily.lastAccepted[day] = (FIRST_DAY + day) * DAY_MS + 22 * HOUR_MS;
  }
  return daily;
}
const find = (daily: DailyColumns, allowance: number | null = ALLOWANCE) =>
  findStepDowns(daily, { from: 0, to: daily.day.length }, { allowance });
const daysOf = (daily: DailyColumns) => find(daily).map(({ day }) => day - FIRST_DAY);

describe('a fall that nobody recorded', () => {
  it('is named with its day, the readings beside it, levels and share of the allowance', () => {
    const [step, ...others] = find(record(200, (day) => (day < 120 ? 0 : -0.5)));
    expect(others).toEqual([]);
    expect(step!.day).toBe(FIRST_DAY + 120);
    expect(step!.earliest).toBe((FIRST_DAY + 119) * DAY_MS + 22 * HOUR_MS);
    expect(step!.latest).toBe((FIRST_DAY + 120) * DAY_MS + HOUR_MS);
    expect(Math.abs(step!.before / ALLOWANCE - 119 / 200)).toBeLessThan(0.03);
    expect(Math.abs(step!.fall / ALLOWANCE - 0.5)).toBeLessThan((3 * step!.fallUncertainty) / ALLOWANCE);
    expect(step!.before - step!.after).toBeCloseTo(step!.fall, 15);
    expect(step!.share).toBeCloseTo(step!.fall / ALLOWANCE, 12);
  });

  it('across a gap lies between the readings on either side of it', () => {
    const isDown = (day: number) => day >= 110 && day < 125;
    const [step] = find(record(200, (day) => (isDown(day) ? Number.NaN : day < 110 ? 0 : -0.5)));
    expect(step!.day).toBe(FIRST_DAY + 125);
    expect(step!.earliest).toBe((FIRST_DAY + 109) * DAY_MS + 22 * HOUR_MS);
    expect(step!.latest).toBe((FIRST_DAY + 125) * DAY_MS + HOUR_MS);
  });

  it('is found as often as it happens', () => {
    expect(daysOf(record(400, (day) => (day < 100 ? 0 : day < 250 ? -0.5 : -1.2)))).toEqual([100, 250]);
  });

  it('is found within the rows of one cycle only', () => {
    const daily = record(300, (day) => (day < 100 ? 0 : day < 200 ? -0.5 : -1.1));
    const steps = findStepDowns(daily, { from: 130, to: 300 }, { allowance: ALLOWANCE });
    expect(steps.map(({ day }) => day - FIRST_DAY)).toEqual([200]);
  });

  it('is the same fall a whole number of days later, on another level, and in other units', () => {
    const daily = record(200, (day) => (day < 120 ? 0 : -0.5));
    const [step] = find(daily);
    const moved = { ...daily, day: daily.day.map((day) => day + 700) };
    expect(find(moved)).toEqual([{ ...step!, day: step!.day + 700 }]);
    const lifted = { ...daily, foulingResistance: daily.foulingResistance.map((value) => value + ALLOWANCE) };
    expect(find(lifted)[0]!.fall / step!.fall).toBeCloseTo(1, 9);
    const larger = { ...daily, foulingResistance: daily.foulingResistance.map((value) => 8 * value) };
    expect(find(larger, 8 * ALLOWANCE)[0]!.share).toBeCloseTo(step!.share!, 12);
  });

  it('is found without an allowance, then without a share of it', () => {
    const steps = find(
      record(200, (day) => (day < 120 ? 0 : -0.5)),
      null,
    );
    expect(steps).toMatchObject([{ day: FIRST_DAY + 120, share: null }]);
  });

  it('is named at the latest five figures after it, and not after one', () => {
    const cleaned = (day: number) => (day < 120 ? 0 : -0.5);
    expect(daysOf(record(121, cleaned))).toEqual([]);
    expect(daysOf(record(125, cleaned))).toEqual([120]);
  });
});

describe('no fall is', () => {
  it.each([
    ['growth alone', () => 0],
    ['a rise for twelve days', (day: number) => (day >= 90 && day < 102 ? 0.4 : 0)],
    ['a dip for twelve days', (day: number) => (day >= 90 && day < 102 ? -0.4 : 0)],
    ['a rise for three days', (day: number) => (day >= 90 && day < 93 ? 0.4 : 0)],
    ['a single far figure', (day: number) => (day === 90 ? -0.8 : 0)],
    ['a fall of a tenth of the allowance', (day: number) => (day < 90 ? 0 : -0.1)],
    ['a slow fall over two months', (day: number) => -0.4 * Math.min(1, Math.max(0, (day - 70) / 60))],
    ['an outage in which nothing changed', (day: number) => (day >= 90 && day < 130 ? Number.NaN : 0)],
  ])('%s', (_, change) => {
    for (let seed = 1; seed <= 10; seed++) expect(daysOf(record(200, change, seed))).toEqual([]);
  });

  it('in a record without figures, or with few', () => {
    expect(find(record(60, () => Number.NaN))).toEqual([]);
    expect(find(record(8, (day) => (day < 4 ? 0 : -1)))).toEqual([]);
    expect(find(record(0, () => 0))).toEqual([]);
  });
});
