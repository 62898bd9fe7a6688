import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { type TrendInput, trendUnit } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { lastingFromText, trendText } from '@/lib/store/entities/trend-text';
import { dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { constantFluid, DAY_MS, waterUnit } from '../../support/forward-readings';

const SEED = 20261130;
const FLUIDS = { hot: constantFluid(4180), cold: constantFluid(4180) };
const DAYS = 420;
/** Limits of their own kinds: the allowance of the second follows recent conditions from day to day. */
const units: Exchanger[] = [
  waterUnit(FLUIDS),
  waterUnit({ ...FLUIDS, limits: [{ kind: 'cleanliness', below: 0.7 }] }),
  waterUnit({ ...FLUIDS, clean: 'learned' }),
];
const cleaning = (day: number) => ({ at: (FIRST_DAY + day) * DAY_MS - 3_600_000, localDay: FIRST_DAY + day });

type History = {
  unit: number;
  cleaned: readonly number[];
  fall: number | null;
  flowFollows: boolean;
  seed: number;
};

/** Fouling that begins anew at every cleaning, recorded or not; flows that the figures follow where the reference is wrong. */
function recordOf({ unit, cleaned, fall, flowFollows, seed }: History): DailyColumns {
  const starts = [0, ...cleaned, ...(fall === null ? [] : [fall])];
  const ageOf = (day: number) => day - Math.max(...starts.filter((start) => start <= day));
  const daily = dailyRecord(units[unit]!, {
    days: DAYS,
    fouling: (day) => 2.2e-6 * ageOf(day),
    noise: 4e-6,
    seed,
  });
  for (let row = 0; row < DAYS; row++) {
    daily.balance[row] = 0.001 * Math.sin(row);
    const swing = 0.1 * Math.sin(row * 2.3) + 0.05 * Math.sin(row * 0.7);
    daily.hotMassFlow[row]! *= Math.exp(swing);
    daily.cleanU[row]! *= 1 + 0.001 * Math.sin(row / 9);
    if (flowFollows) daily.foulingResistance[row]! += 8e-5 * swing;
  }
  return daily;
}

/** Late data: other figures from a row on, one day of them without any. */
function changedFrom(daily: DailyColumns, row: number): DailyColumns {
  const foulingResistance = daily.foulingResistance.map((value, i) =>
    i < row ? value : value * 1.02 + 1e-6 * Math.cos(i),
  );
  foulingResistance[row + 1] = Number.NaN;
  return { ...daily, foulingResistance };
}

/** All that is said; how near the sizes of steps came to the least fall is told of the allowance they were compared by. */
function said(trend: UnitTrend): Omit<UnitTrend, 'searches'> {
  const { searches: _, ...rest } = trend;
  return rest;
}

const history = fc.record({
  unit: fc.nat({ max: units.length - 1 }),
  cleaned: fc.constantFrom<number[]>([], [130], [110, 230], [90, 180, 300], [100, 200, 300, 395]),
  fall: fc.constantFrom(null, 60, 345),
  flowFollows: fc.boolean(),
  seed: fc.nat({ max: 1000 }),
});

describe(`a trend from what was known (seed ${SEED})`, () => {
  it('is the same as one from scratch, whatever changed and since whenever', () => {
    fc.assert(
      fc.property(
        history,
        fc.integer({ min: 320, max: DAYS - 1 }),
        fc.integer({ min: 0, max: 40 }),
        (told, lastRow, days) => {
          const daily = recordOf(told);
          const input = (own: DailyColumns, row: number): TrendInput => ({
            exchanger: units[told.unit]!,
            daily: own,
            cleanings: told.cleaned.map(cleaning),
            asOf: (FIRST_DAY + row + 1) * DAY_MS - 1,
            todayLocalDay: FIRST_DAY + row,
            horizonDays: 365,
          });
          const changedRow = Math.max(0, lastRow - days);
          // Before, the record ended some days earlier, or had other figures in its last days.
          const before = trendUnit(input(changedFrom(daily, changedRow), Math.max(changedRow, lastRow - 3)));
          const known = {
            trend: lastingFromText(trendText(before)),
            changedSinceDay: FIRST_DAY + changedRow,
          };
          const fromScratch = trendUnit(input(daily, lastRow));
          expect(said(trendUnit({ ...input(daily, lastRow), known }))).toEqual(said(fromScratch));
        },
      ),
      { seed: SEED, numRuns: 20, endOnFailure: true },
    );
  });

  it('takes over what ended cycles taught: their figures are not looked at again', () => {
    const daily = recordOf({ unit: 0, cleaned: [], fall: null, flowFollows: false, seed: 5 });
    const told = { exchanger: units[0]!, cleanings: [150, 280].map(cleaning), horizonDays: 365 };
    const on = (row: number) => ({
      asOf: (FIRST_DAY + row + 1) * DAY_MS - 1,
      todayLocalDay: FIRST_DAY + row,
    });
    const trend = trendUnit({ ...told, ...on(400), daily });
    // Spoiled, against what is said of the day of the first change.
    const spoiled = {
      ...daily,
      foulingResistance: daily.foulingResistance.map((v, i) => (i < 140 ? 2 * v : v)),
    };
    const known = { trend, changedSinceDay: FIRST_DAY + 399 };
    const next = trendUnit({ ...told, ...on(401), daily: spoiled, known });
    expect(next.record).toEqual(trend.record);
    expect(next.cycles.slice(0, -1)).toEqual(trend.cycles.slice(0, -1));
    expect(next.searches).toEqual(trend.searches);
    expect(next.cleaningResults.slice(0, -1)).toEqual(trend.cleaningResults.slice(0, -1));
  });
});
