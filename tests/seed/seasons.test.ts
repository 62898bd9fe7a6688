import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { designConductance } from '@/lib/core/clean/design-conductance';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { median } from '@/lib/core/stats/quantile';
import { localDays } from '@/lib/time/local-day';
import { generateReadings } from '@/seed/generate/generate-readings';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';
import {
  type GrowthPlan,
  PERFECT_MEASUREMENT,
  planUnit,
  STEADY_OPERATION,
  type UnitPlan,
  USUAL_MEASUREMENT,
} from '@/seed/generate/unit-plan';
import { makeHeldOutFleet } from '@/seed/held-out';

const END = Date.parse('2026-11-25T08:00:00Z');
const DAYS = 730;
const SPAN = { start: END - DAYS * MS_PER_DAY, end: END, stepMs: 3 * 3_600_000, seed: 5 };

/** Cold side 8 K up and down and 20 % of its flow over the year, the hot flow against it. */
const SEASONAL = {
  ...STEADY_OPERATION,
  coldIn: { ...STEADY_OPERATION.coldIn, shift: 2, season: 8 },
  coldFlow: { ...STEADY_OPERATION.coldFlow, season: 0.2 },
  hotFlow: { ...STEADY_OPERATION.hotFlow, season: -0.12 },
};

/** Liquid on both sides: steam follows its duty. */
const units = makeHeldOutFleet(33, 20)
  .fleet.units.filter(({ hot }) => hot.fluid !== 'steam')
  .slice(0, 4);

function yearsOf(plan: UnitPlan) {
  const { readings, truth } = generateReadings(plan, SPAN);
  const exchanger = toExchanger(plan.unit);
  const evaluation = evaluateReadings({ exchanger, settings: toCheckSettings(plan.unit), readings });
  const localDay = localDays(readings.time, 'Etc/UTC');
  const daily = dailyFigures(evaluation, readings, { localDay, cleanings: [], exchanger });
  return { daily, truth, exchanger };
}

const planOf = (unit: UnitPlan['unit'], growth: GrowthPlan, measurement = PERFECT_MEASUREMENT) =>
  planUnit({ unit, operation: SEASONAL, measurement, first: { ageDays: 0, growth } });

/** Half the distance between the means of the warmest and of the coldest quarter of the days, as a share of the limit. */
function seasonIn(values: number[], coldIn: number[], limit: number): number {
  const order = coldIn.map((_, i) => i).sort((a, b) => coldIn[a]! - coldIn[b]!);
  const quarter = Math.floor(order.length / 4);
  const middle = (rows: number[]) => median(rows.map((i) => values[i]!));
  return (middle(order.slice(-quarter)) - middle(order.slice(0, quarter))) / 2 / limit;
}

function withFigure({ daily }: ReturnType<typeof yearsOf>) {
  return Array.from(daily.day, (_, i) => i).filter((i) => !Number.isNaN(daily.foulingResistance[i]!));
}

describe('the seasons of a clean unit over two years', () => {
  it('show in U against its design figure by more than a tenth of the limit, in the fouling resistance by a hundredth at most', () => {
    const shown: number[] = [];
    for (const unit of units) {
      const years = yearsOf(planOf(unit, { kind: 'none' }));
      const rows = withFigure(years);
      const { daily, truth, exchanger } = years;
      const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
      const designU = designConductance(exchanger, fluids);
      const cold = rows.map((i) => daily.coldIn[i]!);
      const raw = rows.map((i) => 1 / daily.overallU[i]! - 1 / designU);
      shown.push(Math.abs(seasonIn(raw, cold, truth.limit)));
      const fouling = rows.map((i) => daily.foulingResistance[i]!);
      expect(Math.abs(seasonIn(fouling, cold, truth.limit)), unit.tag).toBeLessThan(0.01);
    }
    expect(median(shown)).toBeGreaterThan(0.1);
  });
});

describe('growth through the seasons, by ordinary sensors', () => {
  it('is not bent by them: the rate after two years is that of the truth to within 5 %', () => {
    const growth = { kind: 'linear', limitAtDays: 1000 } as const;
    for (const unit of units) {
      const { daily, truth, exchanger } = yearsOf(planOf(unit, growth, { ...USUAL_MEASUREMENT, bias: 0 }));
      const last = daily.day.at(-1)!;
      const trend = trendUnit({
        exchanger,
        daily,
        cleanings: [],
        asOf: END,
        todayLocalDay: last,
        horizonDays: 730,
      });
      expect(trend.probableCleanings, unit.tag).toEqual([]);
      expect(Math.abs((trend.ratePerDay! * 1000) / truth.limit - 1), unit.tag).toBeLessThan(0.05);
    }
  });
});
