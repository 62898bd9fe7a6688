import { describe, expect, it } from 'vitest';
import { flowDependence, withoutFlowDependence } from '@/lib/core/pipeline/flow-dependence';
import { makeRandom } from '@/lib/core/stats/random';
import { blankDays, dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { waterUnit } from '../../support/forward-readings';

const unit = waterUnit();
const DAYS = 160;
const NOISE = 2e-6;
const RATE = 1e-6;
const span = { start: null, end: null, startDay: FIRST_DAY, endDay: FIRST_DAY + DAYS, from: 0, to: DAYS };
const { hotFlow, coldFlow } = unit.design;

type Follows = { hot?: number; cold?: number; noise?: number; seed?: number; correlated?: boolean };

/** A growing record whose flows swing by 15 %, and whose fouling resistance follows their logarithms. */
function record({ hot = 0, cold = 0, noise = NOISE, seed = 4, correlated = false }: Follows) {
  const random = makeRandom(seed);
  const daily = dailyRecord(unit, { days: DAYS, fouling: (day) => RATE * day, noise, seed });
  for (let row = 0; row < DAYS; row++) {
    const swing = 0.15 * random.normal();
    daily.hotMassFlow[row] = hotFlow * Math.exp(swing);
    daily.coldMassFlow[row] = coldFlow * Math.exp(correlated ? swing : 0.15 * random.normal());
    daily.balance[row] = 0.01;
    daily.foulingResistance[row]! +=
      hot * Math.log(daily.hotMassFlow[row]! / hotFlow) +
      cold * Math.log(daily.coldMassFlow[row]! / coldFlow);
  }
  return daily;
}

describe('what of the fouling resistance follows the flows', () => {
  it('is found for each stream, growth and all', () => {
    const found = flowDependence(unit, record({ hot: 1e-5, cold: -8e-6 }), [span])!;
    // Standard error: noise·√2/(swing·√2·√n) = 1.1e-6 with 160 days.
    expect(Math.abs(found.hot - 1e-5)).toBeLessThan(4e-6);
    expect(Math.abs(found.cold + 8e-6)).toBeLessThan(4e-6);
    expect(found).toMatchObject({ hotReference: hotFlow, coldReference: coldFlow });
  });

  it('is nothing where noise alone could do as much: never in 200 records, at 1 in 10,000 each', () => {
    for (let seed = 1; seed <= 200; seed++) expect(flowDependence(unit, record({ seed }), [span])).toBeNull();
  });

  it('is taken out of the daily figures, which are then those of the reference flows', () => {
    const daily = record({ hot: 2e-5, noise: 1e-7 });
    const levelled = withoutFlowDependence(daily, flowDependence(unit, daily, [span]));
    const off = (columns: typeof daily) =>
      Math.max(...columns.foulingResistance.map((value, row) => Math.abs(value - RATE * row)));
    expect(off(daily)).toBeGreaterThan(5e-6);
    expect(off(levelled)).toBeLessThan(1.5e-6);
    expect(withoutFlowDependence(daily, null)).toBe(daily);
  });

  it('cannot be told between streams that swing together, and is not claimed of either', () => {
    const both = flowDependence(unit, record({ hot: 2e-6, correlated: true }), [span]);
    expect(both === null || Math.abs(both.hot + both.cold - 2e-6) < 3e-6).toBe(true);
  });

  it('takes no step across a cleaning, nor over more than three days', () => {
    const daily = record({ hot: 1e-5 });
    const alternate = Array.from({ length: DAYS }, (_, day) => ({ ...span, from: day, to: day + 1 }));
    expect(flowDependence(unit, daily, alternate)).toBeNull();
    for (let row = 0; row < DAYS; row++) if (row % 4 !== 0) blankDays(daily, row, row + 1, 0);
    expect(flowDependence(unit, daily, [span])).toBeNull();
  });

  it('is not looked for where no balance vouches for the flows', () => {
    const daily = record({ hot: 1e-5 });
    daily.balance.fill(Number.NaN);
    expect(flowDependence(unit, daily, [span])).toBeNull();
  });
});
