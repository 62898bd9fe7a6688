import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { localDay } from '@/lib/time/local-clock';
import { localDays } from '@/lib/time/local-day';
import { DEMO_FLEETS } from '@/seed/demo-fleet';
import { demoOutages, demoPlans, demoSpan, lastHour } from '@/seed/demo-plan';
import { generateReadings } from '@/seed/generate/generate-readings';
import { MS_PER_DAY, type TrueCycle } from '@/seed/generate/true-cycles';

const HOUR = 3_600_000;
/** The demonstration must look alive on any day: an autumn, a summer and a spring end. */
const ENDS = ['2026-11-25T08:30:00Z', '2026-07-10T22:10:00Z', '2027-03-29T03:00:00Z'].map((at) =>
  lastHour(Date.parse(at)),
);
const END = ENDS[0]!;

/** The truth alone needs no hourly readings. */
const truths = (end: number) =>
  demoPlans().map((plan, index) => {
    const { truth } = generateReadings(plan, { ...demoSpan(end, index), stepMs: 24 * HOUR });
    return { tag: plan.unit.tag, plan, ...truth };
  });

const dueInDays = (cycle: TrueCycle, end: number) =>
  cycle.crossesAt === null ? null : (cycle.crossesAt - end) / MS_PER_DAY;

describe.each(ENDS)('the demonstration that ends at %d', (end) => {
  const units = truths(end);
  const due = units.map(({ cycles }) => dueInDays(cycles.at(-1)!, end));

  it('has one unit over its limit for three weeks, three due within the month and two that never reach it', () => {
    expect(due.filter((days) => days !== null && days < 0)).toHaveLength(1);
    expect(due.find((days) => days !== null && days < 0)).toBeCloseTo(-21, -1);
    expect(due.filter((days) => days !== null && days >= 0 && days <= 30)).toHaveLength(3);
    expect(due.filter((days) => days === null)).toHaveLength(2);
  });

  it('has every other unit due in the coming 35 days to 10 months', () => {
    const later = due.filter((days) => days !== null && days > 30) as number[];
    expect(later).toHaveLength(units.length - 6);
    expect(Math.min(...later)).toBeGreaterThan(35);
    expect(Math.max(...later)).toBeLessThan(300);
  });

  it('has one to five cleanings of each unit, one just done, one partial, one nobody wrote down', () => {
    const cleanings = units.flatMap((unit) => unit.cleanings);
    for (const unit of units) {
      expect(unit.cleanings.length).toBeGreaterThanOrEqual(1);
      expect(unit.cleanings.length).toBeLessThanOrEqual(5);
    }
    expect(cleanings.filter(({ at }) => end - at < 7 * MS_PER_DAY)).toHaveLength(1);
    expect(cleanings.filter(({ recovered }) => recovered < 0.7)).toHaveLength(1);
    expect(cleanings.filter(({ isRecorded }) => !isRecorded)).toHaveLength(1);
    for (const { before, after } of cleanings) expect(after).toBeLessThanOrEqual(before);
  });

  it('has past and coming outages at both sites', () => {
    for (const { site } of DEMO_FLEETS) {
      const outages = demoOutages(end).filter((outage) => outage.site === site.name);
      expect(outages.filter(({ to }) => to < end)).toHaveLength(2);
      expect(outages.filter(({ from }) => from > end).length).toBeGreaterThanOrEqual(2);
      for (const { from, to } of outages) expect(from).toBeLessThan(to);
    }
  });
});

describe('the stories of the demonstration', () => {
  const plans = demoPlans();

  it('grow by every law and meet every kind of trouble', () => {
    const laws = plans.flatMap((plan) => plan.cleanings.map(({ growth }) => growth.kind));
    expect(new Set(laws)).toEqual(
      new Set(['none', 'linear', 'delayed-linear', 'falling-rate', 'asymptotic']),
    );
    const faults = plans.flatMap((plan) => plan.faults.map(({ kind }) => kind));
    expect(new Set(faults)).toEqual(new Set(['dead', 'drift', 'swapped', 'spikes', 'out-of-service']));
    expect(plans.some(({ trueFilms }) => trueFilms.hotExponent !== undefined)).toBe(true);
    expect(plans.some(({ measurement }) => measurement.unmeasured.length > 0)).toBe(true);
  });

  const known = new Map<string, UnitTrend>();
  const trendOf = (tag: string): UnitTrend => {
    const trend = known.get(tag) ?? findTrend(tag);
    known.set(tag, trend);
    return trend;
  };

  const findTrend = (tag: string): UnitTrend => {
    const index = plans.findIndex(({ unit }) => unit.tag === tag);
    const plan = plans[index]!;
    const { readings, truth } = generateReadings(plan, demoSpan(END, index));
    const { timeZone } = DEMO_FLEETS.find(({ units }) => units.includes(plan.unit))!.site;
    const exchanger = toExchanger(plan.unit);
    const evaluation = evaluateReadings({ exchanger, settings: toCheckSettings(plan.unit), readings });
    const cleanings = truth.cleanings.filter(({ isRecorded }) => isRecorded).map(({ at }) => at);
    return trendUnit({
      exchanger,
      daily: dailyFigures(evaluation, readings, {
        localDay: localDays(readings.time, timeZone),
        cleanings,
        exchanger,
      }),
      cleanings: cleanings.map((at) => ({ at, localDay: localDay(at, timeZone) })),
      asOf: END,
      todayLocalDay: localDay(END, timeZone),
      horizonDays: 365,
    });
  };

  it.each([
    ['SC-151', 'over-limit'],
    ['LC-171', 'near-limit'],
    ['EV-195', 'near-limit'],
    ['DH-203', 'near-limit'],
    ['AD-261', 'no-data'],
    ['MC-112', 'clean'],
    ['GC-181', 'clean'],
    ['JW-241', 'fouling'],
    ['SC-152', 'fouling'],
  ])('%s is found %s on the last day', (tag, state) => {
    expect(trendOf(tag).state).toBe(state);
  });

  it('SC-151 is seen to have crossed about three weeks ago, JW-241 not to cross within a year', () => {
    const over = trendOf('SC-151');
    const today = localDay(END, 'Europe/Lisbon');
    expect(today - over.limits[over.governing!]!.crossedDay!).toBeGreaterThan(14);
    expect(today - over.limits[over.governing!]!.crossedDay!).toBeLessThan(28);
    expect(trendOf('JW-241').limits.every(({ p50Day }) => p50Day === null)).toBe(true);
  });
});

describe('the speed of the generator', () => {
  it('makes 28 units of eighteen months of hourly readings in less than 10 s of processor time', () => {
    const make = () => generateReadings(demoPlans()[0]!, demoSpan(END, 0)).readings.time.length;
    expect(make()).toBeGreaterThan(13_000);
    const before = process.cpuUsage();
    make();
    const { user, system } = process.cpuUsage(before);
    expect((28 * (user + system)) / 1e6).toBeLessThan(10);
  });
});
