import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { learnPressureExponent } from '@/lib/core/clean/learn-pressure-exponent';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { localDay } from '@/lib/time/local-clock';
import { localDays } from '@/lib/time/local-day';
import { demoPlans, demoSpan, lastHour } from '@/seed/demo-plan';
import { generateReadings } from '@/seed/generate/generate-readings';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';

const END = lastHour(Date.parse('2026-11-25T08:30:00Z'));
const ZONE = 'Europe/Helsinki';

/** The sea-water cooler whose channels are full before its plates are foul, with its true exponent of 1.7. */
function seaWaterCooler(stated?: number) {
  const index = demoPlans().findIndex(({ unit }) => unit.tag === 'SW-223');
  const plan = demoPlans()[index]!;
  const { readings, truth } = generateReadings(plan, demoSpan(END, index));
  const unit = stated === undefined ? plan.unit : { ...plan.unit, pressureDrop: { coldExponent: stated } };
  const exchanger = toExchanger(unit);
  const evaluation = evaluateReadings({ exchanger, settings: toCheckSettings(unit), readings });
  const cleanings = truth.cleanings.map(({ at }) => at);
  return { plan, readings, truth, exchanger, evaluation, cleanings };
}

describe('a unit whose pressure drop is reached first', () => {
  const { readings, truth, exchanger, evaluation, cleanings, plan } = seaWaterCooler(1.7);
  const daily = dailyFigures(evaluation, readings, {
    localDay: localDays(readings.time, ZONE),
    cleanings,
    exchanger,
  });
  const trend = trendUnit({
    exchanger,
    daily,
    cleanings: cleanings.map((at) => ({ at, localDay: localDay(at, ZONE) })),
    asOf: END,
    todayLocalDay: localDay(END, ZONE),
    horizonDays: 730,
  });

  it('has a true limit below its fouling allowance: Δp 75 kPa from a clean 55 kPa, half as much again at the allowance', () => {
    expect(truth.limit).toBeCloseTo((1e-4 * (75 / 55 - 1)) / 0.5, 12);
    const clean = plan.measurement.coldPressureDrop!;
    expect(clean * (1 + (0.5 * truth.limit) / 1e-4)).toBeCloseTo(75_000, 6);
  });

  it('is governed by its pressure drop, with the true day within P10 to P90', () => {
    const governing = trend.limits[trend.governing!]!;
    expect(governing.limit.kind).toBe('pressure-drop');
    const trueDay = localDay(truth.cycles.at(-1)!.crossesAt!, ZONE);
    expect(trueDay).toBeGreaterThanOrEqual(governing.p10Day!);
    expect(trueDay).toBeLessThanOrEqual(governing.p90Day ?? Number.POSITIVE_INFINITY);
    const allowance = trend.limits[1 - trend.governing!]!;
    expect(allowance.p50Day ?? Number.POSITIVE_INFINITY).toBeGreaterThan(governing.p50Day!);
  });

  it('shows its exponent in the days after a cleaning, or says that its flow did not vary enough', () => {
    const start = cleanings.at(-1)!;
    const learned = learnPressureExponent({ evaluation, readings, exchanger, side: 'cold', start })!;
    expect(learned.from - start).toBeLessThan(2 * MS_PER_DAY);
    expect(Math.abs(learned.exponent - 1.7)).toBeLessThan(3 * learned.uncertainty);
  });
});
