import { describe, expect, test } from 'vitest';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';
import type { UnitRecords } from '@/lib/report/records';
import { statementText } from '@/lib/report/unit/clean-by-statement';
import { parseUnitAddress, unitHref } from '@/lib/report/unit/unit-address';
import { unitView } from '@/lib/report/unit-view';
import { DAY_MS, EPOCH } from '../support/forward-readings';
import { CLEANED_AT, freshRecords, LIMIT, linearTrend, NOW, unitRecords } from '../support/unit-records';

const RECORDS = unitRecords();
const viewOf = (records: UnitRecords, query: Record<string, string> = {}, system: 'si' | 'us' = 'si') =>
  unitView(records, parseUnitAddress('HX-1', query), system);
const chartOf = (view: ReturnType<typeof viewOf>, name: string) =>
  view.charts.find((chart) => chart.view.name === name)!.view;

describe('the clean-by statement', () => {
  test('gives P10, P50 and P90, the limit, the share used and the models that carry the weight', () => {
    expect(statementText(viewOf(RECORDS).header.statement)).toBe(
      'Projected to reach its fouling allowance around 29 Jun 2025 (P10 21 Jun – P90 13 Jul 2025), judged by fouling resistance; ' +
        '59 % of the allowance used; a linear and a falling-rate model carry the weight.',
    );
  });

  test('gives the day a limit was crossed and how long ago that is', () => {
    const trend = linearTrend();
    const crossed = { ...trend.limits[0]!, crossedDay: linearTrend().cycles[1]!.endDay - 21 };
    const text = statementText(
      viewOf({ ...RECORDS, trend: { ...trend, state: 'over-limit', limits: [crossed] } }).header.statement,
    );
    expect(text).toMatch(/^Over its limit since 14 Apr 2025, 21 days ago: it reached its fouling allowance/);
  });

  test('gives a probability and no date when the limit is not reached within the horizon', () => {
    const trend = linearTrend();
    const never = { ...trend.limits[0]!, p10Day: null, p50Day: null, p90Day: null, withinHorizon: 0.04 };
    const text = statementText(viewOf({ ...RECORDS, trend: { ...trend, limits: [never] } }).header.statement);
    expect(text).toContain(
      'Not projected to reach its limit within 24 months: the probability of reaching its fouling allowance by then is 4.0 %',
    );
    expect(text).not.toMatch(/P50|around/);
  });

  test('says since when nothing is accepted, why, and which sensor it is', () => {
    const records = unitRecords((readings) => readings.hotFlow.fill(Number.NaN, 100 * 24));
    records.evaluation.reasons.fill(1, 100 * 24);
    records.daily.foulingResistance.fill(Number.NaN, 100);
    const sinceDay = records.daily.day[100]!;
    const health = { ...linearTrend().health, usable: 0, worstReason: 'missing' as const, sinceDay };
    const trend = {
      ...linearTrend(),
      state: 'no-data' as const,
      foulingResistance: null,
      allowanceUsed: null,
      health,
    };
    const text = statementText(viewOf({ ...records, trend }).header.statement);
    expect(text).toBe(
      'No accepted reading since 15 Apr 2025: values missing (hot flow) since 16 Apr 2025. Until that is mended nobody can say when this unit must be cleaned.',
    );
  });
});

describe('the fouling chart', () => {
  test('keeps one figure a day with its uncertainty, in the reader’s unit', () => {
    const chart = chartOf(viewOf(RECORDS, { period: 'all' }), 'fouling');
    const [line, low, high] = chart.columns;
    const drawn = line!.values.filter((value) => value !== null);
    expect(chart.unit).toBe('m²·K/kW');
    expect(drawn.length).toBe(120);
    const first = line!.values[0]!;
    expect(high!.values[0]! - first).toBeCloseTo(first - low!.values[0]!, 6);
    expect(high!.values[0]! - first).toBeCloseTo(RECORDS.daily.foulingResistanceUncertainty[0]! * 1e3, 5);
  });

  test('breaks the line at a cleaning and where days are missing', () => {
    const records = unitRecords();
    const { day } = records.daily;
    const chart = chartOf(viewOf(records, { period: 'all' }), 'fouling');
    expect(chart.columns[0]!.values.slice(0, day.length + 1).filter((value) => value === null).length).toBe(
      1,
    );
    const breakAt = chart.time[chart.columns[0]!.values.indexOf(null)]!;
    expect(Math.abs(breakAt - CLEANED_AT)).toBeLessThan(86_400_000);
  });

  test('carries limit, cleaning with its method, outage, today and the projected band', () => {
    const chart = chartOf(viewOf(RECORDS, { period: 'all' }), 'fouling');
    expect(chart.levels[0]!.value).toBeCloseTo(LIMIT * 1e3, 9);
    expect(chart.marks).toEqual([{ at: CLEANED_AT, symbol: '▲', label: 'cleaned 15 Feb, hot caustic wash' }]);
    expect(chart.spans.map(({ label }) => label)).toEqual(['spring stop']);
    expect(chart.axis.today).toBe(NOW);
    const p50 = chart.columns.find(({ role }) => role === 'p50')!;
    expect(p50.values.filter((value) => value !== null).length).toBeGreaterThan(5);
    expect(chart.cleanBy!.p10).toBeLessThan(chart.cleanBy!.p50);
    expect(chart.axis.end).toBeGreaterThan(chart.cleanBy!.p90!);
  });

  test('marks where another datasheet or clean reference begins to hold', () => {
    const [first] = RECORDS.bases;
    const changed = EPOCH + 60 * DAY_MS;
    const records = {
      ...RECORDS,
      bases: [
        first!,
        { ...first!, from: changed, unitVersion: 2 },
        { ...first!, from: changed + 10 * DAY_MS, unitVersion: 2, reference: 3 },
      ],
    };
    const marks = chartOf(viewOf(records, { period: 'all' }), 'fouling').marks;
    expect(marks.map(({ symbol, label }) => `${symbol} ${label}`)).toEqual([
      '▲ cleaned 15 Feb, hot caustic wash',
      '◇ datasheet 2 from 7 Mar',
      '◇ clean reference 3 from 17 Mar',
    ]);
    expect(chartOf(viewOf(records, { period: 'all' }), 'fouling').note).toBe(
      '◇ datasheet 2 from 7 Mar; clean reference 3 from 17 Mar.',
    );
  });

  test('says in one sentence what it shows', () => {
    expect(chartOf(viewOf(RECORDS), 'fouling').summary).toMatch(
      /^Fouling resistance, 80 days with figures from .* m²·K\/kW, last 0\.1\d+, limit 0\.2\d* m²·K\/kW, projected to be reached around 29 Jun 2025\.$/,
    );
  });
});

describe('the period', () => {
  test('opens with the running cycle, and with 90 days when that is younger than a month', () => {
    expect(viewOf(RECORDS).period.choices.find(({ isCurrent }) => isCurrent)!.name).toBe('cycle');
    const young = linearTrend();
    young.cycles[1]!.startDay = young.cycles[1]!.endDay - 10;
    expect(viewOf({ ...RECORDS, trend: young }).period.choices.find(({ isCurrent }) => isCurrent)!.name).toBe(
      '90d',
    );
  });

  test('is the same for every chart, and steps back by its own length', () => {
    const view = viewOf(RECORDS, { from: '2025-03-01', to: '2025-03-10' });
    for (const { view: chart } of view.charts) {
      expect([chart.axis.from, chart.axis.end]).toEqual([Date.UTC(2025, 2, 1), Date.UTC(2025, 2, 11)]);
    }
    expect(view.period.previous).toBe('/units/HX-1?from=2025-02-19&to=2025-02-28');
    expect(view.period.next).toBe('/units/HX-1?from=2025-03-11&to=2025-03-20');
  });

  test('gives the future at least the room the labels need and at most half', () => {
    expect(viewOf(RECORDS, { period: '30d' }).axis.futureShare).toBeLessThanOrEqual(0.5 + 1e-9);
    expect(viewOf(RECORDS, { period: '1y' }).axis.futureShare).toBeGreaterThanOrEqual(0.15 - 1e-9);
  });

  test('shows no future and no projection in a period that ends before today', () => {
    const view = viewOf(RECORDS, { from: '2025-03-01', to: '2025-03-10' });
    const chart = chartOf(view, 'fouling');
    expect(view.axis.today).toBeNull();
    expect(chart.cleanBy).toBeNull();
    expect(chart.columns.find(({ role }) => role === 'p50')!.values.every((value) => value === null)).toBe(
      true,
    );
  });
});

describe('the address', () => {
  test('comes back the same through a link', () => {
    const query = {
      from: '2025-03-01',
      to: '2025-03-10',
      reading: '2025-03-05T07:00Z',
      how: '1',
      table: 'duty,flows',
      units: 'us',
    };
    const address = parseUnitAddress('HX 1/a', query);
    const again = new URL(unitHref(address), 'http://x');
    expect(parseUnitAddress('HX 1/a', Object.fromEntries(again.searchParams))).toEqual(address);
    expect(decodeURIComponent(again.pathname)).toBe('/units/HX 1/a');
  });

  test('counts what cannot be read as not given', () => {
    const address = parseUnitAddress('X', {
      from: '2025-02-30',
      to: '2025-03-01',
      reading: 'yesterday',
      period: 'decade',
      table: 'x',
    });
    expect(address).toMatchObject({ period: null, fromDay: null, reading: null, tables: [] });
  });
});

describe('readings left out', () => {
  test('are counted by reason with the stretches in which each held and what to do', () => {
    const records = unitRecords((readings) => {
      readings.hotIn.fill(Number.NaN, 2400, 2448);
      readings.coldOut.fill(Number.NaN, 2400, 2448);
    });
    const { leftOut } = viewOf(records, { period: 'all' });
    const missing = leftOut.reasons.find(({ reason }) => reason === 'missing')!;
    expect(missing.count).toBe(48);
    expect(missing.spans.length).toBe(1);
    expect(missing.spans[0]!.to - missing.spans[0]!.from).toBe(48 * 3_600_000);
    expect(missing.advice).toContain('sensor');
    expect(leftOut.usable).toBeCloseTo(leftOut.accepted / leftOut.readings, 12);
  });
});

describe('a unit without readings', () => {
  test('has a page with its datasheet and an invitation to import', () => {
    const view = viewOf(freshRecords());
    expect(view.hasReadings).toBe(false);
    expect(view.header.state).toBeNull();
    expect(statementText(view.header.statement)).toContain('Not analysed yet');
    expect(view.header.age).toBeNull();
    expect(view.datasheet.groups.length).toBe(5);
  });
});

describe('the datasheet', () => {
  const rows = viewOf(RECORDS).datasheet.groups.flatMap((group) => group.rows);
  const row = (label: string) => rows.find((entry) => entry.label === label)!;

  test('shows each quantity as given and in both unit systems', () => {
    expect(row('Hot outlet')).toMatchObject({ given: '122 °F', si: '50.00 °C', us: '122.0 °F' });
    expect(row('Hot flow')).toMatchObject({ given: '72 t/h', si: '20.00 kg/s' });
  });

  test('leaves the end plates out and says so', () => {
    expect(row('Effective area')).toMatchObject({ given: 'A = (102 − 2) · a', si: '50.00 m²' });
    expect(row('Effective area').note).toContain('transfer nothing');
  });

  test('marks what was assumed', () => {
    expect(row('Share of the hot film').note).toBeNull();
    expect(row('Exponent of the cold film on flow').note).toContain('Assumed');
    expect(row('Hot inlet temperature').note).toContain('Assumed');
    expect(row('Hot flow').given).toBe('72 t/h');
  });

  test('says where the nozzles work against buoyancy', () => {
    expect(viewOf(RECORDS).datasheet.advice).toHaveLength(2);
  });
});

test('cycles stand newest first, with how they began, their growth and what ended them', () => {
  const [running, first] = viewOf(RECORDS).cycles.rows;
  expect(running).toMatchObject({
    end: 'running',
    endedBy: '–',
    ratePerDay: { number: '0.00150', uncertainty: '0.00010' },
  });
  expect(first).toMatchObject({
    start: '6 Jan 2025',
    began: 'the record begins',
    endedBy: 'hot caustic wash, 4,000\u00a0€',
  });
});

describe('the flow chart', () => {
  const flows = (spoil: (readings: ReadingColumns) => void) =>
    chartOf(viewOf(unitRecords(spoil), { period: 'all' }), 'flows');

  test('shows a flow that no meter gave as the mass it was worked out as, even where meters read volume', () => {
    const chart = flows((readings) => {
      readings.coldFlow.fill(Number.NaN);
      readings.hotFlow.forEach((flow, i) => {
        readings.hotFlow[i] = flow / 985;
      });
      readings.flowBasis.fill(HOT_FLOW_IS_VOLUME | COLD_FLOW_IS_VOLUME);
    });
    expect(chart.title).toBe('Mass flows as evaluated');
    expect(chart.unit).toBe('kg/s');
    expect(chart.columns.map(({ label }) => label)).toEqual(['hot flow', 'cold flow (inferred)']);
    expect(chart.columns[0]!.values[0]).toBeGreaterThan(15);
  });

  test('shows flows as read where both meters read alike, or one alone reads mass', () => {
    expect(flows(() => {}).title).toBe('Flows as read');
    expect(flows((readings) => readings.hotFlow.fill(Number.NaN)).title).toBe('Flows as read');
  });
});
