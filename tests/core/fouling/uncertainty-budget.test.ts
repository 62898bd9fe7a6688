import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { AS_ON_DATASHEET } from '@/lib/core/clean/clean-reference';
import type { Exchanger, Sensor } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { systematicLeft } from '@/lib/core/fouling/systematic-left';
import { type BudgetInput, uncertaintyBudget } from '@/lib/core/fouling/uncertainty-budget';
import { standardUncertainty } from '@/lib/core/fouling/unit-model';
import { dailyUncertainty } from '@/lib/core/series/daily-uncertainty';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { standardDeviation } from '@/lib/core/stats/spread';
import { readingsOf, solveForward, type TrueState, waterUnit } from '../../support/forward-readings';

const SEED = 4711;
const DRAWS = 100_000;
const settings = {
  ...DEFAULT_CHECK_SETTINGS,
  balanceTolerance: 10,
  terminalDifferenceMultiple: -100,
  spikeHalfWindow: 1,
  spikeThreshold: 1e9,
  frozenHours: 1e6,
};

const stateOf = (exchanger: Exchanger) =>
  solveForward(exchanger, { ...exchanger.design, fouling: 0.2 / exchanger.design.cleanU! });

function inputOf(
  exchanger: Exchanger,
  reading: ReadingColumns,
  change: Partial<BudgetInput> = {},
): BudgetInput {
  return {
    exchanger,
    settings,
    cleanFactors: AS_ON_DATASHEET,
    reading,
    readingsPerDay: 24,
    scatter: 0,
    ...change,
  };
}

function evaluate(exchanger: Exchanger, readings: ReadingColumns) {
  return evaluateReadings({ exchanger, settings, readings, nominal: 0 });
}

function withErrors(
  exchanger: Exchanger,
  state: TrueState,
  only: readonly Sensor[],
  draws = DRAWS,
): ReadingColumns {
  const random = makeRandom(SEED);
  const readings = readingsOf(Array.from({ length: draws }, () => state));
  for (const sensor of only) {
    const sigma = standardUncertainty(exchanger.sensors[sensor], readings[sensor][0]!);
    for (let i = 0; i < draws; i++) readings[sensor][i]! += sigma * random.normal();
  }
  return readings;
}

const plate = waterUnit();
const shell = waterUnit({
  arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2, tubeSide: 'cold' },
  area: 30,
  design: { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 },
});
const condenser = waterUnit({
  hot: { kind: 'steam', pressure: null },
  area: 40,
  design: { hotIn: 105, hotOut: 105, coldIn: 25, coldOut: 60, hotFlow: 1.6, coldFlow: 25, cleanU: 2500 },
});

describe('uncertainty of the lost duty', () => {
  it.each([
    { title: 'plate unit', exchanger: plate, without: [] as Sensor[] },
    { title: '1-2 shell-and-tube', exchanger: shell, without: [] as Sensor[] },
    { title: 'plate unit without hot flow', exchanger: plate, without: ['hotFlow'] as Sensor[] },
    { title: 'condenser', exchanger: condenser, without: ['hotFlow'] as Sensor[] },
  ])('agrees with Monte Carlo within 3 %: $title', ({ exchanger, without }) => {
    const state = stateOf(exchanger);
    const blank = (readings: ReadingColumns) => {
      for (const sensor of without) readings[sensor].fill(Number.NaN);
      return readings;
    };
    const stated = uncertaintyBudget(inputOf(exchanger, blank(readingsOf([state]))))!.lostDuty.reading;
    const drawn = evaluate(exchanger, blank(withErrors(exchanger, state, BALANCE_SENSORS))).lostDuty;
    expect(Math.abs(standardDeviation(drawn) / stated - 1)).toBeLessThan(0.03);
  });
});

describe('uncertainty budget', () => {
  const reading = readingsOf([stateOf(plate)]);
  const budget = uncertaintyBudget(inputOf(plate, reading))!;

  it('has the uncertainties of the evaluation', () => {
    const columns = evaluate(plate, reading);
    expect(budget.duty.reading / columns.dutyUncertainty[0]!).toBeCloseTo(1, 12);
    expect(budget.overallU.reading / columns.overallUUncertainty[0]!).toBeCloseTo(1, 12);
    expect(budget.foulingResistance.reading / columns.foulingResistanceUncertainty[0]!).toBeCloseTo(1, 12);
    expect(budget.foulingResistance.systematic / columns.foulingResistanceSystematic[0]!).toBeCloseTo(1, 12);
    const daily = dailyUncertainty({
      combined: budget.foulingResistance.reading,
      systematic: budget.foulingResistance.systematic,
      scatter: 0,
      count: 24,
    });
    expect(budget.foulingResistance.daily / daily).toBeCloseTo(1, 12);
  });

  it('shares u² out among the sensors to the last, the largest first', () => {
    const total = (key: 'readingShare' | 'dailyShare') =>
      budget.sensors.reduce((sum, sensor) => sum + sensor[key], 0);
    expect(total('readingShare')).toBeCloseTo(1, 12);
    expect(total('dailyShare')).toBeCloseTo(1, 12);
    expect(budget.scatterShare).toBeCloseTo(0, 12);
    const shares = budget.sensors.map(({ dailyShare }) => dailyShare);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
  });

  it('gives each sensor the variance that its errors alone cause (Monte Carlo, 3 % of its uncertainty)', () => {
    for (const { place, readingShare } of budget.sensors) {
      const sensor = BALANCE_SENSORS[place]!;
      const drawn = evaluate(plate, withErrors(plate, stateOf(plate), [sensor], 10_000)).foulingResistance;
      const stated = budget.foulingResistance.reading * Math.sqrt(readingShare);
      expect(Math.abs(standardDeviation(drawn) / stated - 1)).toBeLessThan(0.03);
    }
  });

  it('says of half an uncertainty what evaluating with that sensor says', () => {
    for (const { place, halved } of budget.sensors) {
      const sensor = BALANCE_SENSORS[place]!;
      const own = plate.sensors[sensor];
      const exchanger = {
        ...plate,
        sensors: {
          ...plate.sensors,
          [sensor]: { ...own, absolute: own.absolute / 2, relative: own.relative / 2 },
        },
      };
      const columns = evaluate(exchanger, reading);
      const systematic = columns.foulingResistanceSystematic[0]!;
      const combined = columns.foulingResistanceUncertainty[0]!;
      expect(halved!.systematic / systematic).toBeCloseTo(1, 12);
      expect(halved!.daily / dailyUncertainty({ combined, systematic, scatter: 0, count: 24 })).toBeCloseTo(
        1,
        12,
      );
      expect(halved!.daily).toBeLessThan(budget.foulingResistance.daily);
    }
  });

  it('says of a quantity that is inferred what measuring it would buy', () => {
    const lacking = { ...reading, hotFlow: new Float64Array([Number.NaN]) };
    const without = uncertaintyBudget(inputOf(plate, lacking))!;
    const inferred = without.sensors.find(({ status }) => status === 'inferred')!;
    expect(BALANCE_SENSORS[inferred.place]).toBe('hotFlow');
    expect(inferred).toMatchObject({ readingShare: 0, dailyShare: 0, halved: null });
    const metered = {
      ...plate,
      sensors: { ...plate.sensors, hotFlow: { absolute: 0, relative: 0.005, systematicShare: 0.5 } },
    };
    const columns = evaluate(metered, reading);
    expect(inferred.better!.systematic / columns.foulingResistanceSystematic[0]!).toBeCloseTo(1, 9);
  });

  it('has no better instrument for one that is as good already', () => {
    const fine = {
      ...plate,
      sensors: { ...plate.sensors, hotIn: { absolute: 0.05, relative: 0, systematicShare: 0.5 } },
    };
    const found = uncertaintyBudget(inputOf(fine, reading))!;
    expect(found.sensors.find(({ place }) => place === 0)!.better).toBeNull();
    expect(budget.sensors.find(({ place }) => place === 0)!.better).not.toBeNull();
  });

  it('shows scatter beyond the sensors as a share of its own, which no instrument takes away', () => {
    const scatter = 3 * budget.foulingResistance.reading;
    const rough = uncertaintyBudget(inputOf(plate, reading, { scatter }))!;
    expect(rough.scatterShare).toBeGreaterThan(0.1);
    const sensors = rough.sensors.reduce((sum, { dailyShare }) => sum + dailyShare, 0);
    expect(sensors + rough.scatterShare).toBeCloseTo(1, 12);
    expect(rough.foulingResistance.daily).toBeGreaterThan(budget.foulingResistance.daily);
  });

  it('leaves of the systematic part only what a learned reference does not share', () => {
    const learned = uncertaintyBudget(inputOf({ ...plate, clean: 'learned' }, reading))!;
    const cleanliness = evaluate(plate, reading).cleanliness[0]!;
    expect(learned.foulingResistance.systematic / budget.foulingResistance.systematic).toBeCloseTo(
      systematicLeft('learned', cleanliness),
      12,
    );
  });

  it('is none where the reading has no U', () => {
    const crossed = { ...reading, coldOut: new Float64Array([90]) };
    expect(uncertaintyBudget(inputOf(plate, crossed))).toBeNull();
  });
});
