import { describe, expect, it } from 'vitest';
import { REASONS } from '@/lib/core/checks/reasons';
import type { Exchanger, Limit } from '@/lib/core/exchange/exchanger';
import { typicalForms } from '@/lib/core/growth/pool-forms';
import { expectationFromLike, type Lending } from '@/lib/core/pipeline/lending';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import { type DailyColumns, makeDailyColumns } from '@/lib/core/series/daily-columns';
import { blankDays, dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { constantFluid, DAY_MS, solveForward, waterUnit } from '../../support/forward-readings';

const RATE = 1e-6;
const NOISE = 4e-6;
/** Constant properties: the clean conductance is 2800 W/(m²·K) at every temperature. */
const FLUIDS = { hot: constantFluid(4180), cold: constantFluid(4180) };
const unit = waterUnit(FLUIDS);
const cleaning = (day: number) => ({ at: (FIRST_DAY + day) * DAY_MS - 3_600_000, localDay: FIRST_DAY + day });

type Options = {
  exchanger?: Exchanger;
  cleanings?: { at: number; localDay: number }[];
  today?: number;
  likeRate?: number;
};

/** What a unit of like service says that has fouled at a rate, in whatever form. */
const lendingAt = (ratePerDay: number): Lending => ({
  cycles: 3,
  ratePerDay,
  overDays: 90,
  departure: 0,
  asymptote: null,
  typical: [...typicalForms([])],
});

function trend(daily: DailyColumns, { exchanger = unit, cleanings = [], today, likeRate }: Options = {}) {
  const todayLocalDay = FIRST_DAY + (today ?? daily.day.length - 1);
  return trendUnit({
    exchanger,
    daily,
    cleanings,
    asOf: (todayLocalDay + 1) * DAY_MS - 1,
    todayLocalDay,
    horizonDays: 730,
    like: expectationFromLike(likeRate === undefined ? [] : [lendingAt(likeRate)]),
  });
}

const record = (days: number, fouling: (day: number) => number, exchanger = unit) =>
  dailyRecord(exchanger, { days, fouling, noise: NOISE, seed: 42 });
const withLimits = (...limits: Limit[]) => waterUnit({ ...FLUIDS, limits });

describe('the trend of a unit that fouls at a steady rate', () => {
  const result = trend(record(120, (day) => RATE * day));

  it('says the smooth fouling, rate and share of the allowance, near the truth', () => {
    expect(Math.abs(result.foulingResistance! - 119 * RATE)).toBeLessThan(
      3 * result.foulingResistanceUncertainty!,
    );
    expect(Math.abs(result.ratePerDay! / RATE - 1)).toBeLessThan(0.1);
    expect(result.allowanceUsed).toBeCloseTo(result.foulingResistance! / 2e-4, 12);
    expect(result.allowanceUsedUncertainty).toBeCloseTo(result.foulingResistanceUncertainty! / 2e-4, 12);
    expect(result.cleanliness).toBeCloseTo(1 / (1 + 2800 * result.foulingResistance!), 6);
    expect(result.state).toBe('fouling');
  });

  it('names the day the limit is reached, true day 200, with P10 before and P90 after', () => {
    const { p10Day, p50Day, p90Day, crossedDay, withinHorizon } = result.limits[0]!;
    expect(Math.abs(p50Day! - FIRST_DAY - 200)).toBeLessThan(20);
    expect(p10Day!).toBeLessThanOrEqual(FIRST_DAY + 200);
    expect(p90Day ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual(FIRST_DAY + 200);
    expect(withinHorizon).toBeGreaterThan(0.5);
    expect(crossedDay).toBeNull();
    expect(result.governing).toBe(0);
  });

  it('takes the systematic error of Rf through to share of the allowance and clean-by dates', () => {
    const daily = record(120, (day) => RATE * day);
    // Twelve days' growth: an error of the level alone shifts a steady crossing by as many.
    daily.foulingResistanceSystematic.fill(12 * RATE);
    daily.foulingResistanceUncertainty.fill(Math.hypot(12 * RATE, NOISE));
    const rough = trend(daily);
    expect(rough.allowanceUsedUncertainty!).toBeGreaterThan((12 * RATE) / 2e-4);
    const width = ({ limits }: typeof result) => limits[0]!.p90Day! - limits[0]!.p10Day!;
    expect(width(rough)).toBeGreaterThan(width(result));
    const learned = trend(daily, { exchanger: waterUnit({ ...FLUIDS, clean: 'learned' }) });
    expect(learned.allowanceUsedUncertainty!).toBeLessThan(rough.allowanceUsedUncertainty!);
    expect(width(learned)).toBeLessThan(width(rough));
  });

  it('projects a band from today to the horizon', () => {
    const { ageDays, p10, p90 } = result.band!;
    expect(ageDays[0]).toBe(119);
    expect(ageDays.at(-1)).toBe(119 + 730);
    expect(p90.every((value, i) => value >= p10[i]!)).toBe(true);
  });

  it('knows its newest reading and its one cycle', () => {
    expect(result.lastReading).toBe((FIRST_DAY + 119) * DAY_MS + 23 * 3_600_000);
    expect(result.cycles).toHaveLength(1);
    expect(result.cycles[0]).toMatchObject({ start: null, end: null, figures: 120 });
    expect(result.cycles[0]!.foulingAtEnd).toBe(result.foulingResistance);
  });

  it('uses nothing after the day asked for', () => {
    const whole = record(160, (day) => RATE * day);
    expect(trend(whole, { today: 119 })).toEqual(trend(record(120, (day) => RATE * day)));
  });
});

describe('the state of a unit', () => {
  const at = (fouling: number) => trend(record(60, () => fouling)).state;

  it('is clean below a tenth of its limit and fouling above', () => {
    expect(at(1.2e-5)).toBe('clean');
    expect(at(6e-5)).toBe('fouling');
  });

  it('is near its limit from nine tenths of it', () => {
    expect(at(1.85e-4)).toBe('near-limit');
  });

  it('is near its limit when the median crossing is within 30 days', () => {
    const result = trend(record(100, (day) => 1.75e-6 * day));
    expect(result.allowanceUsed!).toBeLessThan(0.9);
    expect(result.state).toBe('near-limit');
    expect(result.limits[0]!.p50Day! - FIRST_DAY - 99).toBeLessThanOrEqual(30);
  });

  it('is over its limit at or above it, and says since when', () => {
    const result = trend(record(120, (day) => 2e-6 * day));
    expect(result.state).toBe('over-limit');
    expect(Math.abs(result.limits[0]!.crossedDay! - FIRST_DAY - 100)).toBeLessThan(6);
  });

  it('is no-data when the last figure is more than 14 days old; the health says why and since when', () => {
    const daily = record(120, (day) => RATE * day);
    const frozen = REASONS.indexOf('frozen-sensor');
    blankDays(daily, 106, 120, frozen);
    expect(trend(daily).state).toBe('fouling');
    blankDays(daily, 105, 106, frozen);
    blankDays(daily, 104, 105, frozen);
    const result = trend(daily);
    expect(result.state).toBe('no-data');
    expect(result.health).toMatchObject({ worstReason: 'frozen-sensor', sinceDay: FIRST_DAY + 104 });
    for (const name of [
      'foulingResistance',
      'cleanliness',
      'allowanceUsed',
      'ratePerDay',
      'governing',
      'band',
      'lostDuty',
    ] as const) {
      expect(result[name]).toBeNull();
    }
    expect(result.limits).toHaveLength(1);
    expect(result.energyLostSinceCleaning).toBeGreaterThan(0);
  });

  it('is no-data without any reading at all, and after a cleaning until there is a figure', () => {
    const empty = trend(makeDailyColumns(0), { today: 5 });
    expect(empty).toMatchObject({ state: 'no-data', lastReading: null, cycles: [], growth: null });
    expect(empty.health).toMatchObject({ usable: null, worstReason: 'missing', sinceDay: null, drift: null });
    const cleaned = trend(
      record(60, (day) => RATE * day),
      { cleanings: [cleaning(60)], today: 60 },
    );
    expect(cleaned.state).toBe('no-data');
    expect(cleaned.cycles.at(-1)).toMatchObject({ figures: 0, foulingAtStart: null, growth: null });
  });
});

describe('growth that does not reach the limit', () => {
  it('has no clean-by day but a probability: an asymptote at half the limit', () => {
    const result = trend(record(300, (day) => 1e-4 * (1 - Math.exp(-day / 40))));
    expect(result.limits[0]!.p50Day).toBeNull();
    expect(result.limits[0]!.withinHorizon).toBeLessThan(0.2);
    expect(result.governing).toBe(0);
    expect(result.state).toBe('fouling');
  });
});

describe('cycles', () => {
  const saw = (day: number) => (day < 150 ? RATE * day : day < 300 ? RATE * (day - 150) : RATE * (day - 300));
  const cleanings = [cleaning(150), cleaning(300)];

  it('each has its own growth and its fouling at both ends', () => {
    const result = trend(record(400, saw), { cleanings });
    expect(result.cycles).toHaveLength(3);
    for (const cycle of result.cycles) {
      expect(Math.abs(cycle.growth!.ratePerDay / RATE - 1)).toBeLessThan(0.15);
      expect(Math.abs(cycle.foulingAtStart!)).toBeLessThan(1.5e-5);
    }
    expect(Math.abs(result.cycles[0]!.foulingAtEnd! - 149 * RATE)).toBeLessThan(1.5e-5);
    const { models, ...said } = result.growth!;
    expect(result.cycles[2]!.growth).toMatchObject(said);
    expect(result.cycles[2]!.growth!.models.map(({ weight }) => weight)).toEqual(
      models.map(({ weight }) => weight),
    );
  });

  it('earlier ones inform a young cycle: after five days it already knows about when', () => {
    const daily = record(306, saw);
    const alone = trend(daily, { cleanings: [cleaning(300)] });
    const informed = trend(daily, { cleanings });
    const { p50Day } = informed.limits[0]!;
    expect(Math.abs(p50Day! - FIRST_DAY - 500)).toBeLessThan(100);
    // Without its record the first cleaning is a fall that nobody explained.
    expect(alone.cycles.map(({ began }) => began)).toEqual(['record', 'probable-cleaning', 'cleaning']);
    expect(informed.cycles.map(({ began }) => began)).toEqual(['record', 'cleaning', 'cleaning']);
  });

  it('a prior of like units informs where the unit has no earlier cycle', () => {
    const daily = record(4, (day) => RATE * day);
    expect(trend(daily).limits[0]!.p50Day).toBeNull();
    expect(Math.abs(trend(daily, { likeRate: RATE }).limits[0]!.p50Day! - FIRST_DAY - 200)).toBeLessThan(60);
  });

  it('a cleaning after the day asked for has not happened yet', () => {
    expect(trend(record(400, saw), { cleanings, today: 290 }).cycles).toHaveLength(2);
  });

  it('beyond the last twelve are told without a fitted growth', () => {
    const short = (day: number) => RATE * (day % 10);
    const many = Array.from({ length: 14 }, (_, k) => cleaning(10 * (k + 1)));
    const result = trend(record(150, short), { cleanings: many });
    expect(result.cycles).toHaveLength(15);
    expect(result.cycles.map(({ growth }) => growth !== null)).toEqual([
      false,
      false,
      ...new Array(13).fill(true),
    ]);
    expect(result.cycles[0]!.foulingAtEnd).not.toBeNull();
  });
});

describe('several limits', () => {
  const fouling = (day: number) => RATE * day;

  it('each is judged, and the earliest governs', () => {
    const exchanger = withLimits(
      { kind: 'fouling-resistance', value: 3e-4 },
      { kind: 'cleanliness', below: 0.7 },
    );
    const result = trend(record(100, fouling, exchanger), { exchanger });
    // Cleanliness 0.7 is reached at (1/0.7 − 1)/2800 = 1.53e-4.
    expect(result.limits[1]!.foulingResistance).toBeCloseTo((1 / 0.7 - 1) / 2800, 7);
    expect(result.governing).toBe(1);
    expect(Math.abs(result.limits[1]!.p50Day! - FIRST_DAY - 153)).toBeLessThan(15);
  });

  it('where none is reached within the horizon, that with the highest share used governs', () => {
    const exchanger = withLimits(
      { kind: 'fouling-resistance', value: 9e-4 },
      { kind: 'fouling-resistance', value: 7e-4 },
    );
    const result = trend(
      record(120, () => 6e-5, exchanger),
      { exchanger },
    );
    expect(result.limits.map(({ p50Day }) => p50Day)).toEqual([null, null]);
    expect(result.governing).toBe(1);
  });

  it('an outlet temperature is reached at the fouling that gives this outlet at recent inlets and flows', () => {
    const target = solveForward(unit, { ...unit.design, fouling: 1.5e-4 });
    const exchanger = withLimits({
      kind: 'outlet-temperature',
      stream: 'hot',
      above: target.hotOut,
      below: null,
    });
    const result = trend(record(100, fouling, exchanger), { exchanger });
    expect(Math.abs(result.limits[0]!.foulingResistance! / 1.5e-4 - 1)).toBeLessThan(0.02);
    expect(Math.abs(result.limits[0]!.p50Day! - FIRST_DAY - 150)).toBeLessThan(15);
  });

  it('a pressure drop has a growth of its own', () => {
    const exchanger = withLimits({ kind: 'pressure-drop', stream: 'cold', above: 60_000 });
    const daily = record(100, fouling, exchanger);
    daily.coldPressureDrop = Float64Array.from(daily.day, (_, day) => 40_000 + 100 * day);
    const result = trend(daily, { exchanger });
    expect(Math.abs(result.limits[0]!.p50Day! - FIRST_DAY - 200)).toBeLessThan(10);
    expect(result.limits[0]!.foulingResistance).toBeNull();
    expect(Math.abs(result.allowanceUsed! - 0.495)).toBeLessThan(0.05);
  });

  it('a pressure drop comes with its own value, its uncertainty, where it began and a band of its own', () => {
    const exchanger = withLimits({ kind: 'pressure-drop', stream: 'cold', above: 60_000 });
    const daily = record(100, fouling, exchanger);
    daily.coldPressureDrop = Float64Array.from(daily.day, (_, day) => 40_000 + 100 * day);
    const { limits } = trend(daily, { exchanger });
    const { value, uncertainty, atStart, band } = limits[0]!.pressureDrop!;
    expect(Math.abs(value - 49_900)).toBeLessThan(100);
    expect(Math.abs(atStart - 40_000)).toBeLessThan(100);
    // Half the variance of 2 % of the median 45 kPa is the same in every reading; the rest averages out.
    expect(Math.abs(uncertainty / (0.02 * 44_950 * Math.SQRT1_2) - 1)).toBeLessThan(0.2);
    expect(band!.ageDays[0]).toBe(99);
    expect(band!.p50.findIndex((level) => level >= 60_000)).toBe(
      band!.ageDays.findIndex((age) => age >= limits[0]!.crossing!.p50!),
    );
  });

  it('a pressure drop that is reached before the fouling allowance governs, and the other way round', () => {
    const exchanger = withLimits(
      { kind: 'fouling-resistance', value: 2e-4 },
      { kind: 'pressure-drop', stream: 'cold', above: 60_000 },
    );
    const daily = record(100, fouling, exchanger);
    const dropping = (perDay: number) => {
      daily.coldPressureDrop = Float64Array.from(daily.day, (_, day) => 40_000 + perDay * day);
      return trend(daily, { exchanger });
    };
    // The allowance is reached on day 200; the pressure drop on day 143, or on day 400.
    const soon = dropping(140);
    expect(soon.governing).toBe(1);
    expect(Math.abs(soon.limits[1]!.p50Day! - FIRST_DAY - 143)).toBeLessThan(5);
    expect(Math.abs(soon.allowanceUsed! - (99 * 140) / 20_000)).toBeLessThan(0.03);
    expect(Math.abs(soon.limits[0]!.p50Day! - FIRST_DAY - 200)).toBeLessThan(20);
    const late = dropping(50);
    expect(late.governing).toBe(0);
    expect(Math.abs(late.limits[1]!.p50Day! - FIRST_DAY - 400)).toBeLessThan(15);
    expect(late.allowanceUsed).toBeCloseTo(late.foulingResistance! / 2e-4, 12);
  });

  it('a limit that nothing leads to governs nothing', () => {
    const exchanger = withLimits({ kind: 'pressure-drop', stream: 'cold', above: 60_000 });
    const result = trend(record(60, fouling, exchanger), { exchanger });
    expect(result).toMatchObject({ governing: null, allowanceUsed: null, state: 'clean' });
  });
});

describe('a record too young to tell', () => {
  it('says its fouling and state but no day, no probability and no band', () => {
    const result = trend(record(4, (day) => RATE * day));
    expect(result.foulingResistance).not.toBeNull();
    expect(result.state).not.toBe('no-data');
    expect(result.limits[0]).toMatchObject({ p10Day: null, p50Day: null, p90Day: null, withinHorizon: null });
    expect(result.band).toBeNull();
  });

  it('projects at once where an earlier cycle lends a rate', () => {
    const result = trend(
      record(4, (day) => RATE * day, unit),
      { likeRate: RATE },
    );
    expect(result.limits[0]!.p50Day).not.toBeNull();
    expect(result.band).not.toBeNull();
  });
});
