import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chartsView } from '@/lib/report/unit/charts-view';
import { packCharts, unpackCharts } from '@/lib/report/unit/packed-charts';
import { thinDays } from '@/lib/report/unit/thin-days';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { panDays, within, zoomDays } from '@/lib/report/unit/zoom-days';
import { unitView } from '@/lib/report/unit-view';
import { unitRecords } from '../support/unit-records';

const RECORDS = unitRecords((readings) => {
  readings.hotOut[700]! += 25;
  readings.hotIn.fill(Number.NaN, 900, 930);
  readings.coldIn.fill(Number.NaN, 900, 930);
});
const chartsOf = (query: Record<string, string>, columns?: number) =>
  chartsView(RECORDS, parseUnitAddress('HX-1', query), 'si', { columns });

describe('charts over a window', () => {
  it('are those of the page for the same address, and come through the wire as they are', () => {
    const queries: Record<string, string>[] = [
      { period: 'all' },
      { from: '2025-02-01', to: '2025-02-10', table: 'duty' },
    ];
    for (const query of queries) {
      const view = chartsOf(query);
      const page = unitView(RECORDS, parseUnitAddress('HX-1', query), 'si');
      expect(view.charts).toEqual(page.charts);
      expect(view.period).toEqual(page.period);
      const sent = JSON.parse(JSON.stringify(packCharts(view)));
      expect(JSON.parse(JSON.stringify(unpackCharts(sent)))).toEqual(JSON.parse(JSON.stringify(view)));
    }
  });

  it('draw in every column of pixels the least and the greatest of all its readings, and keep the gaps', () => {
    const columns = 60;
    const few = chartsOf({ period: 'all' }, columns);
    const { readings, evaluation } = RECORDS;
    const lines: [name: string, place: number, all: Float64Array, factor: number][] = [
      ['temperatures', 0, readings.hotIn, 1],
      ['temperatures', 1, readings.hotOut, 1],
      ['balance', 0, evaluation.balance, 100],
    ];
    for (const [name, place, all, factor] of lines) {
      const { view } = few.charts.find((chart) => chart.view.name === name)!;
      const end = view.axis.today ?? view.axis.end;
      const bucketOf = (at: number) =>
        Math.min(columns - 1, Math.floor(((at - view.axis.from) / (end - view.axis.from)) * columns));
      const drawn = extremes(view.time, view.columns[place]!.values, bucketOf);
      const given = [...all].map((value) =>
        Number.isNaN(value) ? null : Number((value * factor).toPrecision(5)),
      );
      expect(drawn).toEqual(extremes([...readings.time], given, bucketOf));
      expect(view.isReduced).toBe(true);
    }
  });

  it('send every row of a figure that is shown as a table', () => {
    const few = chartsOf({ period: 'all', table: 'temperatures,fouling' }, 50);
    const rows = (name: string) => few.charts.find((chart) => chart.view.name === name)!.view;
    expect(rows('temperatures').isReduced).toBe(false);
    expect(rows('flows').time.length).toBeLessThan(rows('temperatures').time.length);
    expect(rows('fouling').columns[0]!.values.filter((value) => value !== null).length).toBe(120);
  });

  it('keep what was left out in sight, with its reason', () => {
    const { view } = chartsOf({ period: 'all' }, 50).charts.find((chart) => chart.view.name === 'duty')!;
    expect(view.lane!.bars.length).toBeGreaterThan(0);
    expect(view.lane!.remarks.join(' ')).toContain('values missing');
  });
});

/** Least and greatest value of each column of pixels. */
function extremes(
  time: readonly number[],
  values: readonly (number | null)[],
  bucketOf: (at: number) => number,
): Record<number, [number, number]> {
  const found: Record<number, [number, number]> = {};
  values.forEach((value, row) => {
    if (value === null) return;
    const bucket = bucketOf(time[row]!);
    const [least, greatest] = found[bucket] ?? [value, value];
    found[bucket] = [Math.min(least, value), Math.max(greatest, value)];
  });
  return found;
}

describe('days that are thinned out', () => {
  it('keep in every column of pixels the least and greatest of each figure, each cut and each gap that is seen', () => {
    const figure = fc.option(fc.integer({ min: -50, max: 50 }), { nil: Number.NaN });
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ step: fc.integer({ min: 1, max: 9 }), a: figure, b: figure, isCut: fc.boolean() }),
          {
            minLength: 1,
            maxLength: 200,
          },
        ),
        fc.integer({ min: 1, max: 20 }),
        (days, buckets) => {
          const time: number[] = [];
          const source: number[] = [];
          const cuts: number[] = [];
          let at = 0;
          days.forEach(({ step, isCut }, row) => {
            if (row > 0 && (step > 1 || isCut)) {
              time.push(at + step / 2);
              source.push(-1);
              if (isCut) cuts.push(at + step);
            }
            at += step;
            time.push(at);
            source.push(row);
          });
          const columns = [days.map(({ a }) => a), days.map(({ b }) => b)];
          const window = { from: 0, to: at + 1, buckets, cuts };
          const thin = thinDays({ time, source }, columns, window);
          const width = (at + 1) / buckets;
          const bucketOf = (instant: number) => Math.floor(instant / width);
          for (const column of columns) {
            const of = (rows: { time: number[]; source: number[] }) =>
              extremes(
                rows.time,
                rows.source.map((row) => (row < 0 || Number.isNaN(column[row]!) ? null : column[row]!)),
                bucketOf,
              );
            expect(of(thin)).toEqual(of({ time, source }));
          }
          const breaks = time.filter(
            (_, i) =>
              source[i]! < 0 &&
              (time[i + 1]! - time[i - 1]! > width ||
                cuts.some((cut) => cut > time[i - 1]! && cut <= time[i + 1]!)),
          );
          expect(thin.time).toEqual(expect.arrayContaining(breaks));
          expect(thin.source.length).toBeLessThanOrEqual(time.length);
        },
      ),
      { seed: 20260301 },
    );
  });
});

describe('looking closer', () => {
  const limits = { earliest: 1000, latest: 4652 };

  it('halves and doubles the days around a point, and stays between the first day and today', () => {
    expect(zoomDays({ fromDay: 2000, toDay: 2099 }, 0.5, limits)).toEqual({ fromDay: 2025, toDay: 2074 });
    expect(zoomDays({ fromDay: 2000, toDay: 2099 }, 0.5, limits, 1)).toEqual({ fromDay: 2050, toDay: 2099 });
    expect(zoomDays({ fromDay: 4600, toDay: 4652 }, 2, limits)).toEqual({ fromDay: 4547, toDay: 4652 });
    expect(zoomDays({ fromDay: 1000, toDay: 4652 }, 2, limits)).toBeNull();
    expect(zoomDays({ fromDay: 2000, toDay: 2000 }, 0.5, limits)).toBeNull();
  });

  it('moves sideways by half of what is shown, as far as there is something', () => {
    expect(panDays({ fromDay: 2000, toDay: 2099 }, 1, limits)).toEqual({ fromDay: 2050, toDay: 2149 });
    expect(panDays({ fromDay: 4553, toDay: 4652 }, 1, limits)).toBeNull();
    expect(panDays({ fromDay: 1010, toDay: 1109 }, -1, limits)).toEqual({ fromDay: 1000, toDay: 1099 });
  });

  it('always gives whole days within the limits', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 6000 }), fc.nat(6000), (fromDay, length) => {
        const days = within({ fromDay, toDay: fromDay + length }, limits);
        expect(days.fromDay).toBeGreaterThanOrEqual(limits.earliest);
        expect(days.toDay).toBeLessThanOrEqual(limits.latest);
        expect(days.toDay).toBeGreaterThanOrEqual(days.fromDay);
      }),
      { seed: 7 },
    );
  });

  it('is offered by links that need no script', () => {
    const { period } = chartsOf({ from: '2025-02-01', to: '2025-02-10' });
    expect(period.zoomIn).toBe('/units/HX-1?from=2025-02-04&to=2025-02-08');
    expect(period.zoomOut).toBe('/units/HX-1?from=2025-01-27&to=2025-02-15');
    expect(period.reset).toBe('/units/HX-1');
    expect(period.daysHref).toBe(
      '/units/HX-1?from=%7Bfrom%7D&to=%7Bto%7D'.replace(/%7B/g, '{').replace(/%7D/g, '}'),
    );
  });
});
