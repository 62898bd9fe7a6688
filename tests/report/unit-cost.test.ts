import { describe, expect, it } from 'vitest';
import { chartCsv } from '@/app/ui/chart/chart-csv';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { SupplyRecord, UnitRecords } from '@/lib/report/records';
import { costHref, readCostAddress } from '@/lib/report/unit-cost/cost-address';
import { doubtsIn } from '@/lib/report/unit-cost/cost-table';
import { type CostView, costView } from '@/lib/report/unit-cost/cost-view';
import { dayNumber } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { freshRecords, linearTrend, NOW, PLATE_UNIT, PORT, unitRecords } from '../support/unit-records';

const TODAY = localDay(NOW, PORT.timeZone);
const START = linearTrend().cycles[1]!.startDay;
const KWH = 3.6e6;

const ENERGY: Unit['energy'] = { effect: 'heating', supply: 'natural gas', efficiency: 0.8 };
const PRICED = unitSchema.parse({
  ...PLATE_UNIT,
  energy: ENERGY,
  cleaning: { cost: 4000, duration: { value: 12, unit: 'h' }, inOutageOnly: true },
});

const GAS: SupplyRecord = {
  id: 1,
  siteId: 1,
  supply: 'natural gas',
  fromDay: dayNumber('2024-01-01'),
  price: { amount: 0.04, per: 'kW.h' },
  carbon: { kg: 0.2, per: 'kW.h' },
  givenBy: 'energy buyer',
  note: null,
  createdAt: 0,
};

/** Losses that grow on as they did: by so many watts a day. */
function outlook(growth: number): UnitTrend['outlook'] {
  const ageDays = Array.from({ length: 105 }, (_, week) => 7 * week);
  const lostDuty = ageDays.map((age) => growth * (TODAY - START + 1 + age));
  const nothing = ageDays.map(() => 0);
  return {
    ageDays,
    lostDuty,
    lostDutyAfter: lostDuty,
    pumping: nothing,
    pumpingAfter: nothing,
    isPumpingKnown: false,
    reached: nothing,
    reachedAfter: nothing,
    duty: 2e6,
    left: { value: 0, uncertainty: 0, from: 'nothing', cleanings: 0 },
  };
}

function recordsOf(unit: Unit = PRICED, changes: Partial<UnitTrend> = {}): UnitRecords {
  const records = unitRecords(() => {}, unit);
  const trend = { ...records.trend!, outlook: outlook(1500), ...changes };
  return { ...records, trend, supplies: [GAS], cleanings: [] };
}

const viewOf = (records: UnitRecords, query: Record<string, string> = {}): CostView =>
  costView(records, readCostAddress('HX-1', query), 'si');

const RECORDS = recordsOf();
const VIEW = viewOf(RECORDS);
const known = (view: CostView) => view.known!;
const stepsOf = (view: CostView) => known(view).chain!.steps;

describe('the chain from a day to its money', () => {
  it('goes from clean duty through efficiency and dated price to money and CO2e', () => {
    const [lost, bought] = stepsOf(VIEW);
    expect([lost!.id, bought!.id]).toEqual(['lost-duty', 'bought']);
    const { daily } = RECORDS;
    const row = daily.lostDuty.findLastIndex((value) => !Number.isNaN(value));
    // By hand: lost duty / 0.8 for 24 h at 0.04 € and 0.2 kg per kWh.
    const kilowattHours = (daily.lostDuty[row]! / 1000 / 0.8) * 24;
    const [power, money, carbon] = bought!.lines;
    expect(power!.result).toMatch(/ ± .* kW$/);
    const number = (text: string) => Number(text.replaceAll(',', '').match(/[\d.]+/)![0]);
    const spread = number(money!.result.split('±')[1]!);
    expect(Math.abs(number(money!.result) - kilowattHours * 0.04)).toBeLessThanOrEqual(spread);
    expect(money!.figures).toContain('0.04 € per kWh');
    // In tonnes.
    expect((number(carbon!.result) * 1000) / (kilowattHours * 0.2)).toBeCloseTo(1, 2);
    expect(carbon!.result).toMatch(/ t a day$/);
    expect(bought!.notes).toEqual(['Price of natural gas from 1 Jan 2024 on.']);
  });

  it('starts from the clean unit at the inlets and flows of the day', () => {
    const [, , clean, once, lost] = stepsOf(VIEW)[0]!.lines;
    expect(clean!.symbols).toContain('Q_{clean}');
    expect(once!.figures.startsWith(clean!.result)).toBe(true);
    expect(lost!.result).toContain('±');
  });

  it('tells extra flow and margin in place of lost duty where a valve holds an outlet', () => {
    const unit = unitSchema.parse({
      ...PRICED,
      energy: { ...ENERGY, heldOutlet: 'cold' },
      pumping: { hotMaximumFlow: { value: 40, unit: 'kg/s' } },
    });
    const [held] = stepsOf(viewOf(recordsOf(unit)));
    expect(held).toMatchObject({ id: 'held', title: 'Held outlet: extra hot flow, and the margin left' });
    expect(held!.lines.map(({ symbols }) => symbols.split(' ')[0])).toEqual(['ṁ_{extra}', 'margin']);
    expect(stepsOf(viewOf(recordsOf(unit))).map(({ id }) => id)).not.toContain('lost-duty');
  });
});

describe('the losses of a unit', () => {
  const { periods, months } = known(VIEW).table;

  it('are told since the last cleaning, over 30 days, this year and month by month', () => {
    expect(periods.map(({ key }) => key)).toEqual(['cycle', '30d', 'year']);
    expect(periods[0]!.label).toContain('Since the last cleaning');
    expect(periods[1]!.days).toMatchObject({ counted: '30', without: '0', unpriced: '0' });
    expect(months.at(0)!.label).toBe('May 2025');
    const counted = months.reduce((sum, { days }) => sum + Number(days.counted), 0);
    expect(counted).toBe(RECORDS.daily.lostDuty.filter((value) => !Number.isNaN(value)).length);
  });

  it('say which days have no price, in a column that is there for it only', () => {
    const later = { ...RECORDS, supplies: [{ ...GAS, fromDay: TODAY - 9 }] };
    const late = known(viewOf(later)).table.periods;
    expect(late[1]!.days).toMatchObject({ counted: '30', unpriced: '20' });
    expect([doubtsIn(periods.slice(1, 2)), doubtsIn(late.slice(1, 2))]).toEqual([[], ['unpriced']]);
  });
});

describe('what is projected', () => {
  it('reaches to the day that the address asks for', () => {
    const until = known(viewOf(RECORDS, { until: '2025-06-30' })).projection;
    expect(until).toMatchObject({ until: '2025-06-30' });
    expect(until.rows.map(({ key }) => key)).toEqual(['ahead', 'p10', 'p90', 'cycle']);
    // By hand: the mean of lost duties that grow evenly, over the days from tomorrow to the last.
    const days = dayNumber('2025-06-30') - TODAY;
    const mean = 1500 * (TODAY - START + 1 + (days + 1) / 2);
    const bought = (mean * 86_400 * days) / KWH / 0.8;
    const shown = Number(until.rows[0]!.money.replaceAll(',', '').split('\u00a0')[0]);
    expect(shown / (bought * 0.04)).toBeCloseTo(1, 1);
  });

  it('reaches no further than is projected, and says so', () => {
    const { until, latest, note } = known(viewOf(RECORDS, { until: '2099-01-01' })).projection;
    expect(until).toBe(latest);
    expect(note).toContain('No further than');
  });

  it('is nothing while it is too early', () => {
    const early = known(viewOf(recordsOf(PRICED, { outlook: null }))).projection;
    expect(early.rows).toEqual([]);
    expect(early.note).toContain('Nothing can be projected yet');
  });
});

/** The curve of a unit whose losses grew evenly in this cycle, and go on so. */
function curveOf(cost: number) {
  const records = recordsOf(unitSchema.parse({ ...PRICED, cleaning: { ...PRICED.cleaning, cost } }));
  const { daily } = records;
  const lostDuty = daily.lostDuty.map((lost, row) =>
    daily.day[row]! < START ? lost : 1500 * (daily.day[row]! - START + 0.5),
  );
  return known(viewOf({ ...records, daily: { ...daily, lostDuty } })).curve!;
}

describe('when cleaning costs least', () => {
  const { parts } = known(VIEW).curve!;
  /** So that √(2C/k) of the loss of 1.5 kW more each day, 1.8 € a day, is 100 days: some ahead. */
  const { statement, flat, chart } = curveOf(9000);

  it('is the least of the curve, marked and said with its spread in days', () => {
    expect(statement).toMatch(
      /^Cleaning costs least around \d+ \w+ 2025: .* a day over the whole cycle, projected\./,
    );
    expect(flat).toMatch(/^Cleaning any day from .* to .* costs within 5 % of the least\.$/);
    expect(chart.marks).toHaveLength(1);
    expect(chart.spans).toMatchObject([{ label: 'within 5 % of the least' }]);
    const values = chart.time.map(
      (_, row) => chart.columns[0]!.values[row] ?? chart.columns[1]!.values[row]!,
    );
    const least = values.indexOf(Math.min(...values));
    // The curve is known by the week.
    expect(Math.abs(chart.time[least]! - chart.marks[0]!.at)).toBeLessThanOrEqual(7 * 86_400_000);
    expect(chart.marks[0]!.at).toBeGreaterThan(chart.spans[0]!.from);
    expect(chart.marks[0]!.at).toBeLessThan(chart.spans[0]!.to);
  });

  it('begins in the past, where it is below three times the least, and tells what was measured from what is expected', () => {
    const [measured, expected, lost] = chart.columns.map(({ values }) => values);
    const today = chart.time.indexOf(chart.axis.today!);
    expect(chart.time.length - today).toBeGreaterThan(10);
    expect(today).toBeGreaterThan(30);
    chart.time.forEach((_, row) => {
      expect([measured![row] !== null, expected![row] !== null]).toEqual([row <= today, row >= today]);
    });
    expect(measured![today]).toBe(expected![today]);
    const least = Math.min(...expected!.flatMap((value) => value ?? []));
    expect(measured![0]! / least).toBeLessThanOrEqual(3);
    // By hand, at the first day shown: what had been lost by then and one cleaning, over the days of the cycle.
    const age = Math.round((chart.time[0]! - startOfLocalDay(START, PORT.timeZone)) / 86_400_000) + 1;
    expect(measured![0]).toBeCloseTo((9000 + lost![0]!) / (age + 0.5), 6);
    expect((9000 + lost![0]!) / (age - 1 + 0.5)).toBeGreaterThan(2.9 * least);
  });

  it('shows a least that has passed, with its flat range, and what waiting until today costs', () => {
    // √(2 · 1000/1.8) = 33 days.
    const { statement, flat, chart } = curveOf(1000);
    expect(statement).toMatch(/^Cleaning would have cost least around \d+ \w+ 20\d\d: \d/);
    expect(flat).toMatch(/would have cost within 5 % of the least; today it costs \d+ % more than the least/);
    const [mark] = chart.marks;
    expect(mark!.at).toBeLessThan(chart.axis.today!);
    expect(mark!.at).toBeGreaterThanOrEqual(chart.spans[0]!.from);
    expect(mark!.at).toBeLessThanOrEqual(chart.spans[0]!.to);
    expect(chart.spans[0]!.to).toBeLessThan(chart.axis.today!);
    const values = chart.columns[0]!.values.map((value) => value ?? Number.POSITIVE_INFINITY);
    expect(chart.time[values.indexOf(Math.min(...values))]).toBe(mark!.at);
  });

  it('has neither least nor shade where later is always cheaper, and is still drawn to be read', () => {
    const dear = curveOf(9_000_000).chart;
    expect(dear.spans).toEqual([]);
    expect(dear.marks).toEqual([]);
    expect(dear.note).not.toContain('Shaded');
    const values = dear.columns
      .slice(0, 2)
      .flatMap((column) => column.values.flatMap((value) => value ?? []));
    expect(Math.max(...values)).toBeLessThanOrEqual(3 * Math.min(...values));
  });

  it('stands beside the days on which the limit is reached, on the same axis', () => {
    const { cleanBy, axis } = chart;
    expect(cleanBy!.p10).toBeLessThan(cleanBy!.p50);
    expect(cleanBy!.p90!).toBeLessThanOrEqual(axis.end);
    expect(cleanBy!.label).toMatch(/^limit: \d+ \w+ – \d+ \w+$/);
    expect(chart.note).toContain('P10 to P90');
  });

  it('names the next outage of a unit that is cleaned in outages only, and none for any other', () => {
    const day = 86_400_000;
    const [spring] = RECORDS.outages;
    const outageOf = (changes: Partial<UnitRecords>) =>
      known(viewOf({ ...RECORDS, ...changes })).curve!.outage;
    const stop = { ...spring!, name: 'gale stop', from: NOW + 2 * day, to: NOW + 3 * day };
    const past = { ...spring!, name: 'old stop', from: NOW - 9 * day, to: NOW - 8 * day };
    // 20 days after the last evening of the record, 5 May 2025.
    expect(outageOf({})).toBe('It is cleaned in outages only: the next is spring stop, 25 May 2025.');
    expect(outageOf({ outages: [past, spring!, stop] })).toContain('the next is gale stop');
    expect(outageOf({ outages: [past] })).toContain('the calendar of Port has none ahead');
    expect(outageOf({ outages: [{ ...stop, from: NOW - day }] })).toContain('gale stop is on, to ');
    const anyDay = unitSchema.parse({ ...PRICED, cleaning: { ...PRICED.cleaning, inOutageOnly: false } });
    expect(known(viewOf(recordsOf(anyDay))).curve!.outage).toBeNull();
  });

  it('says what it is made of', () => {
    expect(parts.map(({ value, whence }) => [value, whence]).slice(0, 3)).toEqual([
      ['4,000\u00a0€', 'as the datasheet states'],
      ['12 h', 'as the datasheet states'],
      ['none', 'cleaned in outages only: the plant stands anyway'],
    ]);
  });

  it('is also a table and a file', () => {
    const rows = chartCsv(chart).trim().split('\r\n');
    expect(rows[0]).toBe(
      'time (Europe/Lisbon),"mean cost, losses as measured [€/day]","mean cost, losses as expected [€/day]",lost by then in this cycle [€]',
    );
    expect(rows).toHaveLength(chart.time.length + 1);
    const address = readCostAddress('HX-1', { table: 'curve', until: '2025-06-30' });
    expect(costHref(address)).toBe('/units/HX-1/cost?until=2025-06-30&table=curve');
    expect(known(viewOf(RECORDS, { table: 'curve' })).toggleHref).toBe('/units/HX-1/cost');
  });
});

describe('a limit that is reached before cleaning pays', () => {
  it('is said beside the cheapest day', () => {
    const dear = unitSchema.parse({ ...PRICED, cleaning: { ...PRICED.cleaning, cost: 12_000 } });
    const { statement } = known(viewOf(recordsOf(dear))).curve!;
    expect(statement).toMatch(/ The limit comes first, around \d+ \w+ 2025 as projected\.$/);
  });
});

describe('what is missing', () => {
  const titles = (records: UnitRecords) => viewOf(records).missing.map(({ title }) => title);

  it('is named with what to enter and where', () => {
    expect(titles(RECORDS)).toEqual([]);
    const [price] = viewOf({ ...RECORDS, supplies: [] }).missing;
    expect(price!.text).toContain('no price is stated of natural gas');
    expect(price!.action!.href).toBe('/energy/prices?site=Port&supply=natural+gas#add');
    const { energy: _energy, ...unpriced } = PRICED;
    expect(viewOf(recordsOf(unpriced)).missing[0]!.action!.href).toBe('/units/HX-1/setup');
    const { cleaning: _cleaning, ...uncosted } = PRICED;
    expect(titles(recordsOf(uncosted))).toEqual(['No cost of a cleaning']);
    expect(titles(recordsOf(PRICED, { outlook: null }))).toEqual(['Too early to project']);
    expect(titles(freshRecords())).toEqual(['No reading yet']);
  });
});
