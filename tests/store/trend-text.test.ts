import { describe, expect, it } from 'vitest';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import { lastingFromText, trendFromText, trendText } from '@/lib/store/entities/trend-text';
import { dailyRecord, FIRST_DAY } from '../support/daily-record';
import { DAY_MS, waterUnit } from '../support/forward-readings';

const DAYS = 300;
const CLEANED = 120;
const exchanger = waterUnit();
const trend = trendUnit({
  exchanger,
  daily: dailyRecord(exchanger, {
    days: DAYS,
    fouling: (day) => 1e-6 * (day < CLEANED ? day : day - CLEANED),
    noise: 4e-6,
    seed: 1,
  }),
  cleanings: [{ at: (FIRST_DAY + CLEANED) * DAY_MS - 3_600_000, localDay: FIRST_DAY + CLEANED }],
  asOf: (FIRST_DAY + DAYS) * DAY_MS - 1,
  todayLocalDay: FIRST_DAY + DAYS - 1,
  horizonDays: 365,
});

describe('the text of a trend', () => {
  it('is JSON that gives the trend back, its band in typed columns', () => {
    expect(trend.band).not.toBeNull();
    expect(JSON.parse(trendText(trend)).band.p50).toEqual([...trend.band!.p50]);
    expect(trendFromText(trendText(trend))).toEqual(trend);
  });

  it('gives what the next analysis asks for by itself', () => {
    const { cycles, searches, cleaningResults, record, lending, flowDependence } = trend;
    expect(cycles).toHaveLength(2);
    expect(lastingFromText(trendText(trend))).toEqual({
      ...{ cycles, searches, cleaningResults, record, lending, flowDependence },
    });
  });
});
