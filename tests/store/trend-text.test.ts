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
  it('is JSON that gives the trend back to the last bit, typed columns and plain ones', () => {
    expect(trend.band).not.toBeNull();
    expect(trendFromText(trendText(trend))).toEqual(trend);
  });

  it('holds columns as bytes of doubles in base64 (IEEE 754, RFC 4648)', () => {
    const { band, outlook } = JSON.parse(trendText(trend));
    const bytes = Buffer.from(band.p50.floats, 'base64');
    expect(bytes).toHaveLength(8 * trend.band!.p50.length);
    expect(trend.band!.p50.map((_, i) => bytes.readDoubleLE(8 * i))).toEqual(trend.band!.p50);
    const losses = Buffer.from(outlook.lostDuty.numbers, 'base64');
    expect(trend.outlook!.lostDuty.map((_, i) => losses.readDoubleLE(8 * i))).toEqual(
      trend.outlook!.lostDuty,
    );
  });

  it('keeps what decimals cannot: no number, and a zero with its sign', () => {
    const lostDuty = trend.outlook!.lostDuty.map((_, i) => [Number.NaN, -0, 1e-300][i % 3]!);
    const odd = { ...trend, outlook: { ...trend.outlook!, lostDuty } };
    expect(trendFromText(trendText(odd)).outlook!.lostDuty).toEqual(lostDuty);
  });

  it('gives what the next analysis asks for by itself', () => {
    const { cycles, searches, cleaningResults, record, lending, flowDependence } = trend;
    expect(cycles).toHaveLength(2);
    expect(lastingFromText(trendText(trend))).toEqual({
      ...{ cycles, searches, cleaningResults, record, lending, flowDependence },
    });
  });
});
