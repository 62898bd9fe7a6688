import { describe, expect, it } from 'vitest';
import { cycleSpans } from '@/lib/core/pipeline/cycle-spans';
import { dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { DAY_MS, waterUnit } from '../../support/forward-readings';

const ALLOWANCE = 2e-4;
/** Cleaned on day 100, recorded or not, and on day 200. */
const daily = dailyRecord(waterUnit(), {
  days: 260,
  fouling: (day) => 1.5e-6 * (day % 100),
  noise: 4e-6,
  seed: 12,
});
const cleaning = (day: number) => ({ at: (FIRST_DAY + day) * DAY_MS - 3_600_000, localDay: FIRST_DAY + day });
const spansOf = (days: number[], explainedFalls: number[] = []) =>
  cycleSpans(daily, { cleanings: days.map(cleaning), allowance: ALLOWANCE, explainedFalls });

describe('the cycles of a record', () => {
  it('run from one recorded cleaning to the next', () => {
    const { spans, probableCleanings } = spansOf([100, 200]);
    expect(probableCleanings).toEqual([]);
    expect(spans.map(({ began, from, to }) => [began, from, to])).toEqual([
      ['record', 0, 100],
      ['cleaning', 100, 200],
      ['cleaning', 200, 260],
    ]);
  });

  it('begin anew at a fall that nobody explained, and say so', () => {
    const { spans, probableCleanings } = spansOf([200]);
    expect(probableCleanings).toHaveLength(1);
    expect(probableCleanings[0]!.day).toBe(FIRST_DAY + 100);
    expect(spans.map(({ began, from, to, start, end }) => [began, from, to, start, end])).toEqual([
      ['record', 0, 100, null, null],
      ['probable-cleaning', 100, 200, null, cleaning(200).at],
      ['cleaning', 200, 260, cleaning(200).at, null],
    ]);
    expect(spans[1]!.startDay).toBe(FIRST_DAY + 100);
    expect(spans[0]!.endDay).toBe(FIRST_DAY + 100);
  });

  it('run on across a fall that a person explained, named to within five days', () => {
    for (const day of [95, 100, 105]) {
      const { spans, probableCleanings } = spansOf([200], [FIRST_DAY + day]);
      expect(probableCleanings).toEqual([]);
      expect(spans).toHaveLength(2);
    }
    expect(spansOf([200], [FIRST_DAY + 94]).probableCleanings).toHaveLength(1);
  });
});
