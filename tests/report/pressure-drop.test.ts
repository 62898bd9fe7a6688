import { describe, expect, test } from 'vitest';
import { parseMaths } from '@/app/ui/maths/parse-maths';
import { unitSchema } from '@/lib/contract/fleet-file';
import type { LearnedExponent } from '@/lib/core/clean/learn-pressure-exponent';
import type { LimitResult } from '@/lib/core/pipeline/unit-trend';
import type { UnitRecords } from '@/lib/report/records';
import { allowanceBar } from '@/lib/report/unit/allowance-bar';
import { statementText } from '@/lib/report/unit/clean-by-statement';
import { limitTable } from '@/lib/report/unit/limit-rows';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { unitView } from '@/lib/report/unit-view';
import { CLEANED_AT, LIMIT, linearTrend, PLATE_UNIT, unitRecords } from '../support/unit-records';

const UNIT = unitSchema.parse({
  ...PLATE_UNIT,
  sensors: { coldPressureDrop: { uncertainty: 0.01 } },
  limits: [
    ...PLATE_UNIT.limits,
    { kind: 'pressure-drop', stream: 'cold', above: { value: 90, unit: 'kPa' } },
    { kind: 'outlet-temperature', stream: 'cold', below: { value: 40, unit: 'Cel' } },
  ],
});

/** 60 kPa at the design flow, whatever the flow, and nothing for ten days. */
const MEASURED = unitRecords((readings) => {
  readings.coldPressureDrop = readings.coldFlow.map((flow) => 60_000 * (flow / 25) ** 1.8);
  readings.coldPressureDrop.fill(Number.NaN, 80 * 24, 90 * 24);
}, UNIT);

/** The pressure drop governs: reached a fortnight before the fouling allowance. */
function withTrend(records: UnitRecords): UnitRecords {
  const trend = linearTrend();
  const [fouling] = trend.limits as [LimitResult];
  const { endDay, startDay } = trend.cycles[1]!;
  const ages = Float64Array.from({ length: 10 }, (_, i) => endDay - startDay + 10 * i);
  const band = {
    ageDays: ages,
    p10: ages.map((age) => 5e4 + 200 * age),
    p50: ages.map((age) => 5e4 + 300 * age),
    p90: ages.map((age) => 5e4 + 400 * age),
  };
  const drop: LimitResult = {
    ...fouling,
    limit: { kind: 'pressure-drop', stream: 'cold', above: 90_000 },
    foulingResistance: null,
    p10Day: fouling.p10Day! - 14,
    p50Day: fouling.p50Day! - 14,
    p90Day: null,
    withinHorizon: 0.72,
    pressureDrop: { value: 60_000, uncertainty: 450, atStart: 50_000, band },
  };
  const outlet: LimitResult = {
    ...fouling,
    limit: { kind: 'outlet-temperature', stream: 'cold', above: null, below: 40 },
    foulingResistance: 4e-4,
    p10Day: null,
    p50Day: null,
    p90Day: null,
    withinHorizon: 0.03,
  };
  return {
    ...records,
    trend: { ...trend, limits: [fouling, drop, outlet], governing: 1, allowanceUsed: 0.25 },
  };
}

const RECORDS = withTrend(MEASURED);
const viewOf = (records: UnitRecords, query: Record<string, string> = {}) =>
  unitView(records, parseUnitAddress('HX-1', query), 'si');
const chartOf = (records: UnitRecords, name: string, query = { period: 'all' }) =>
  viewOf(records, query).charts.find(({ view }) => view.name === name)?.view;

describe('the chart of a pressure drop', () => {
  const chart = chartOf(RECORDS, 'cold-pressure-drop')!;

  test('stands below the fouling, for a measured side only', () => {
    expect(
      viewOf(RECORDS)
        .charts.map(({ view }) => view.name)
        .slice(0, 2),
    ).toEqual(['fouling', 'cold-pressure-drop']);
    expect(viewOf(unitRecords()).charts.map(({ view }) => view.name)).not.toContain('cold-pressure-drop');
  });

  test('shows the daily values at the design flow: 60 kPa however the flow swings', () => {
    const values = chart.columns[0]!.values.filter((value) => value !== null);
    expect(values.length).toBeGreaterThan(100);
    for (const value of values) expect(Math.abs(value - 60)).toBeLessThan(0.4);
    expect(chart.unit).toBe('kPa');
    expect(chart.note).toBe('Scaled to 25.0 kg/s by the flow to the power 1.8.');
  });

  test('has its own limit, clean-by bar and projected band', () => {
    expect(chart.levels).toEqual([{ value: 90, label: 'limit 90.0', role: 'limit' }]);
    const fouling = chartOf(RECORDS, 'fouling')!;
    expect(chart.cleanBy!.p50).toBeLessThan(fouling.cleanBy!.p50);
    expect(chart.cleanBy!.p90).toBeNull();
    const p50 = chart.columns.find(({ role }) => role === 'p50')!.values.filter((value) => value !== null);
    expect(p50[0]).toBeCloseTo(50 + 0.3 * 79, 0);
  });

  test('keeps the gap, and says that the value was not measured though readings were accepted', () => {
    expect(chart.missing.map(({ label }) => label)).toEqual(['not measured since 27 Mar']);
    expect(chartOf(RECORDS, 'fouling')!.missing).toEqual([]);
  });

  test('carries the cleanings, breaks the line there, and says in one sentence what it shows', () => {
    expect(chart.marks[0]!.at).toBe(CLEANED_AT);
    expect(chart.summary).toMatch(
      /^Daily cold-side pressure drop at the design flow, from 60\.0 to 60\.0 kPa, last 60\.0, limit 90\.0 kPa, projected to be reached around \d+ Jun 2025\.$/,
    );
  });

  test('can be shown as a table by the address', () => {
    const view = viewOf(RECORDS, { table: 'cold-pressure-drop' });
    expect(view.charts.find(({ view: { name } }) => name === 'cold-pressure-drop')!.isTable).toBe(true);
  });

  test('leaves the fouling chart its own limit where the pressure drop governs', () => {
    expect(chartOf(RECORDS, 'fouling')!.levels[0]!.value).toBeCloseTo(LIMIT * 1e3, 9);
  });
});

describe('the table of limits', () => {
  const { rows, horizon } = limitTable(RECORDS, 'si');

  test('has every limit with its value, today’s, the share used and the days', () => {
    expect(horizon).toBe('24 months');
    expect(rows.map(({ label, limit }) => [label, limit])).toEqual([
      ['Fouling resistance', '≤ 0.200 m²·K/kW'],
      ['Cold-side pressure drop', '≤ 90.0 kPa'],
      ['Cold outlet temperature', '≥ 40.0 °C'],
    ]);
    expect(rows.map(({ used }) => used)).toEqual(['59 %', '25 %', '30 %']);
    expect(rows.map(({ isGoverning }) => isGoverning)).toEqual([false, true, false]);
    expect(rows[1]!.today).toEqual({ number: '60.0', uncertainty: '0.5', unit: 'kPa' });
    expect(Number(rows[2]!.today.number)).toBeGreaterThan(40);
  });

  test('says the probability, "later" beyond the horizon, and the day one was reached', () => {
    expect(rows.map(({ probability }) => probability)).toEqual(['98 %', '72 %', '3.0 %']);
    expect(rows[1]!.p90).toBe('later');
    expect(rows[2]!.p50).toBe('later');
    const crossed = RECORDS.trend!.limits.map((limit) => ({ ...limit, crossedDay: 20_200 }));
    const after = limitTable({ ...RECORDS, trend: { ...RECORDS.trend!, limits: crossed } }, 'si');
    expect(after.rows[0]).toMatchObject({ p50: '–', probability: 'reached 22 Apr 2025' });
  });

  test('says why there is no answer: not measured, too early, nothing recent', () => {
    const limits = RECORDS.trend!.limits.map((limit) => ({
      ...limit,
      withinHorizon: null,
      pressureDrop: null,
    }));
    const young = { ...RECORDS.trend!, limits };
    const words = (trend: typeof young) =>
      limitTable({ ...RECORDS, trend }, 'si').rows.map(({ probability }) => probability);
    expect(words(young)).toEqual([
      'too early to project',
      'not measured in this cycle',
      'too early to project',
    ]);
    expect(words({ ...young, state: 'no-data' })[0]).toBe('no recent data');
    expect(limitTable({ ...RECORDS, trend: null }, 'si').rows).toEqual([]);
  });
});

describe('where the pressure drop governs', () => {
  test('the statement names it, and no model of the fouling resistance', () => {
    const text = statementText(viewOf(RECORDS).header.statement);
    expect(text).toContain('Projected to reach a cold-side pressure drop of 90.0 kPa around');
    expect(text).toContain('25 % of the allowance used');
    expect(text).not.toContain('model');
  });

  test('the working crosses the pressure drop with its limit', () => {
    const { steps } = viewOf(RECORDS, { how: '1' }).worked!;
    const crossing = steps.find(({ id }) => id === 'clean-by')!.lines.at(-1)!;
    expect(crossing.symbols).toBe('Δp_{ref}(t) = limit');
    expect(crossing.result).toContain('P90 later');
  });
});

describe('the bar from clean to the limit', () => {
  test('runs along the pressure drop where that governs, with its own uncertainty and heading', () => {
    const bar = allowanceBar(RECORDS.trend, linearTrend().cycles[1]!.endDay, 'si')!;
    expect(bar.uncertainty).toBeCloseTo(450 / 40_000, 12);
    expect(bar.limitText).toBe('limit 90.0 kPa');
    expect(bar.heading!.p10).toBeLessThan(bar.heading!.p90);
  });
});

describe('the exponent of the pressure drop', () => {
  const learned: LearnedExponent = {
    exponent: 1.7234,
    uncertainty: 0.031,
    isIdentifiable: true,
    from: CLEANED_AT,
    to: CLEANED_AT + 9 * 86_400_000,
    readings: 212,
    flowSpread: 0.052,
  };
  const stepOf = (exponent: LearnedExponent | null) =>
    viewOf(
      { ...RECORDS, pressureExponents: { hot: null, cold: exponent } },
      { how: '1', period: 'all' },
    ).worked!.steps.find(({ id }) => id === 'pressure-drop')!;

  test('is worked out with the reading’s figures, in a notation that can be set', () => {
    const { lines, notes } = stepOf(learned);
    expect(lines).toHaveLength(1);
    expect(lines[0]!.result).toMatch(/^60\.0 ± 0\.6 kPa$/);
    for (const text of [lines[0]!.symbols, lines[0]!.figures]) expect(() => parseMaths(text)).not.toThrow();
    expect(notes[0]).toBe(
      'Cold side: m = 1.8, assumed: the datasheet states none. 212 readings from 15 Feb 2025, just after a cleaning, give m = 1.72 ± 0.03 (the flow varied by 5.2 %). State it in the datasheet to use it.',
    );
  });

  test('is not offered where the flow did not vary enough, and asks for more where there is nothing', () => {
    expect(stepOf({ ...learned, uncertainty: 0.31, isIdentifiable: false }).notes[0]).toContain(
      'do not settle it (1.7 ± 0.3; the flow varied by 5.2 %)',
    );
    expect(stepOf(null).notes[0]).toContain('Readings cannot tell it yet');
  });

  test('has no step for a reading without a pressure drop', () => {
    const view = viewOf(unitRecords(), { how: '1' });
    expect(view.worked!.steps.map(({ id }) => id)).not.toContain('pressure-drop');
  });
});
