import { describe, expect, test } from 'vitest';
import { chartCsv } from '@/app/ui/chart/chart-csv';
import { LABEL_WIDTH, rightMargin } from '@/app/ui/chart/chart-margins';
import { niceScale } from '@/lib/report/format/nice-scale';
import { timeAxis } from '@/lib/report/format/time-axis';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import { usualRange } from '@/lib/report/unit/chart-parts';
import { readCleaningForm } from '@/lib/report/unit/cleaning-input';
import { missingSpans } from '@/lib/report/unit/missing-spans';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { unitView } from '@/lib/report/unit-view';
import { NOW, PORT, unitRecords } from '../support/unit-records';

const DAY = 86_400_000;
const AT = Date.UTC(2026, 4, 15);
const axisOf = (days: number, lastDayToShow: number | null = null) =>
  timeAxis({ from: AT, to: AT + days * DAY, now: AT + days * DAY, lastDayToShow, timeZone: 'UTC' });

describe('the time axis', () => {
  test('labels days, weeks or months so that at most about nine stand side by side', () => {
    expect(
      axisOf(6)
        .ticks.map(({ label }) => label)
        .slice(0, 2),
    ).toEqual(['15 May 2026', '16 May']);
    expect(axisOf(500).ticks.map(({ label }) => label)).toEqual(
      expect.arrayContaining(['Jul 2026', 'Oct', 'Jan 2027', 'Apr']),
    );
    for (const days of [3, 14, 30, 90, 200, 365, 1000, 4000]) {
      expect(axisOf(days).ticks.length).toBeLessThanOrEqual(10);
      expect(axisOf(days).ticks.length).toBeGreaterThanOrEqual(2);
    }
  });

  test('begins its days at the site’s midnight, also after the clocks change', () => {
    const from = Date.UTC(2026, 2, 26, 0);
    const axis = timeAxis({
      from,
      to: from + 6 * DAY,
      now: 0,
      lastDayToShow: null,
      timeZone: 'Europe/Lisbon',
    });
    expect(axis.ticks.at(-1)!.at % DAY).toBe(23 * 3_600_000);
  });
});

describe('the value scale', () => {
  test('ends on round numbers around the values', () => {
    expect(niceScale(0.003, 0.19, 4)).toEqual({
      min: 0,
      max: 0.2,
      ticks: [0, 0.05, 0.1, 0.15, 0.2],
      decimals: 2,
    });
    expect(niceScale(-40, 970, 4)).toMatchObject({ min: -500, max: 1000, decimals: 0 });
  });

  test('has room around a flat line and something to draw for nothing', () => {
    const flat = niceScale(20, 20);
    expect(flat.min).toBeLessThan(20);
    expect(flat.max).toBeGreaterThan(20);
    expect(niceScale(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY).ticks.every(Number.isFinite)).toBe(
      true,
    );
  });

  test('is not flattened by one wild value', () => {
    const steady = Array.from({ length: 1000 }, (_, i) => 50 + (i % 10));
    expect(usualRange([[...steady, 9999]])[1]).toBeLessThan(65);
    expect(usualRange([steady])).toEqual([50, 59]);
  });
});

test('a chart leaves room for its end labels in the future part of the axis or beside it', () => {
  const axis = axisOf(100);
  const width = 1100;
  const right = rightMargin(width, axis);
  expect(right + axis.futureShare * (width - 52 - right)).toBeGreaterThanOrEqual(LABEL_WIDTH);
});

test('a chart’s CSV holds the site’s own time and guards against formulas', () => {
  const [chart] = unitView(unitRecords(), parseUnitAddress('HX-1', { period: 'all' }), 'si').charts;
  const view = { ...chart!.view, columns: [{ ...chart!.view.columns[0]!, label: '=1+1' }] };
  const lines = chartCsv(view).split('\r\n');
  expect(lines[0]).toBe("time (Europe/Lisbon),'=1+1 [m²·K/kW],left out");
  expect(lines[1]).toMatch(/^2025-01-06,-?[\d.]+,("[^"]*"|[^",]*)$/);
  expect(lines.length).toBe(122);
});

test('a stretch without figures is marked with its cause and since when', () => {
  const records = unitRecords((readings) => {
    readings.hotIn.fill(Number.NaN, 60 * 24, 75 * 24);
    readings.coldOut.fill(Number.NaN, 60 * 24, 75 * 24);
  });
  const { axis } = unitView(records, parseUnitAddress('HX-1', { period: 'all' }), 'si');
  const today = records.daily.day.at(-1)!;
  expect(missingSpans(records.daily, axis, today).map(({ label }) => label)).toEqual([
    'values missing since 7 Mar',
  ]);
});

test('units of measure are written as people write them', () => {
  expect(ucumInWords('[Btu_IT]/(h.[ft_i]2.[degF])')).toBe('Btu/(h·ft²·°F)');
  expect(ucumInWords('m3/h')).toBe('m³/h');
  expect(ucumInWords('m2.K/W')).toBe('m²·K/W');
  expect(ucumInWords('[gal_us]/min')).toBe('gal/min');
});

describe('the form that records a cleaning', () => {
  const read = (fields: Record<string, string>) =>
    readCleaningForm(fields, { timeZone: PORT.timeZone, now: NOW });

  test('takes local time of the site', () => {
    expect(read({ at: '2025-05-01T08:00', method: ' ', cost: '1200,5' })).toEqual({
      at: Date.UTC(2025, 4, 1, 7),
      method: null,
      cost: 1200.5,
      note: null,
    });
  });

  test('refuses a time that never occurs, occurs twice, lies ahead or cannot be read', () => {
    const messages = ['2025-03-30T01:30', '2024-10-27T01:30', '2026-01-01T00:00', 'soon'].map((at) => {
      try {
        read({ at });
        return 'taken';
      } catch (error) {
        return (error as { faults: { message: string }[] }).faults[0]!.message;
      }
    });
    expect(messages).toEqual([
      expect.stringContaining('twice or never'),
      expect.stringContaining('twice or never'),
      expect.stringContaining('future'),
      expect.stringContaining('such as'),
    ]);
  });
});
