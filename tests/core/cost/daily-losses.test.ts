import { describe, expect, it } from 'vitest';
import { LONGEST_BRIDGED_DAYS } from '@/lib/core/cost/bridged-days';
import { dailyLosses, SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import type { CycleStart } from '@/lib/core/cycles/cycle-rows';
import { splitCycles } from '@/lib/core/cycles/split-cycles';
import { losses as energyLosses } from '@/lib/core/pipeline/energy-lost';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { DAY_MS } from '../../support/forward-readings';
import { FIRST, roundUnit, sameEveryDay } from '../../support/losing-unit';

const unit = roundUnit();
const FIGURES = {
  hotIn: 90,
  hotOut: 60,
  coldIn: 30,
  coldOut: 45,
  duty: 1.2e6,
  cleanU: 2000,
  foulingResistance: 1e-4,
  hotMassFlow: 10,
  coldMassFlow: 20,
};
const running: CycleStart[] = [{ start: null, startDay: FIRST }];

/** A record of which the lost duty is given by day [W]. */
function record(lostDuty: Record<number, number>): DailyColumns {
  const days = Object.keys(lostDuty).map(Number);
  const daily = sameEveryDay(days, FIGURES);
  daily.lostDuty.set(Object.values(lostDuty));
  return daily;
}

describe('what fouling cost on each day', () => {
  it('is the lost duty over the day, and on days between two figures the straight line', () => {
    const losses = dailyLosses({ exchanger: unit, daily: record({ 0: 100, 4: 500 }), cycles: running });
    expect([...losses.day]).toEqual([0, 1, 2, 3, 4].map((day) => FIRST + day));
    expect([...losses.heat].map((heat) => heat / SECONDS_PER_DAY)).toEqual([100, 200, 300, 400, 500]);
    expect([...losses.isBridged]).toEqual([0, 1, 1, 1, 0]);
  });

  it('bridges seven days without a figure, and of eight none', () => {
    const bridged = dailyLosses({ exchanger: unit, daily: record({ 0: 100, 8: 100 }), cycles: running });
    expect(bridged.day).toHaveLength(2 + LONGEST_BRIDGED_DAYS);
    const open = dailyLosses({ exchanger: unit, daily: record({ 0: 100, 9: 100 }), cycles: running });
    expect(open.day).toHaveLength(2);
  });

  it('leaves out days whose figure is missing as if they had no row', () => {
    const losses = dailyLosses({
      exchanger: unit,
      daily: record({ 0: 100, 1: Number.NaN, 2: 300, 30: Number.NaN }),
      cycles: running,
    });
    expect([...losses.heat].map((heat) => heat / SECONDS_PER_DAY)).toEqual([100, 200, 300]);
  });

  it('never bridges across a cleaning', () => {
    const cleaned = [...running, { start: (FIRST + 3) * DAY_MS, startDay: FIRST + 3 }];
    const losses = dailyLosses({
      exchanger: unit,
      daily: record({ 0: 100, 1: 100, 4: 7, 5: 7 }),
      cycles: cleaned,
    });
    expect([...losses.day].map((day) => day - FIRST)).toEqual([0, 1, 4, 5]);
  });

  it('adds up to the energy that the trend says was lost', () => {
    const daily = record({ 0: 50, 1: 120, 6: 300, 20: 10, 22: 14, 29: 20 });
    daily.firstAccepted.set([...daily.day].map((day) => day * DAY_MS));
    const cleanings = [{ at: (FIRST + 20) * DAY_MS - 1, localDay: FIRST + 19 }];
    const spans = splitCycles(daily, cleanings);
    const { heat } = dailyLosses({ exchanger: unit, daily, cycles: spans });
    const told = energyLosses(daily, spans, FIRST + 29);
    expect(told.energyLostLast30Days).toBeCloseTo(
      heat.reduce((sum, each) => sum + each, 0),
      0,
    );
    const since = dailyLosses({ exchanger: unit, daily, cycles: spans.slice(-1) });
    expect(told.energyLostSinceCleaning).toBeCloseTo(
      since.heat.reduce((sum, each) => sum + each, 0),
      0,
    );
  });

  it('says nothing of flow and margin of an ordinary unit, nor of pumping without a pressure drop', () => {
    const losses = dailyLosses({ exchanger: unit, daily: record({ 0: 100 }), cycles: running });
    expect([losses.pumping[0], losses.extraFlow[0], losses.marginLeft[0]]).toEqual([NaN, NaN, NaN]);
  });

  it('has no row without figures', () => {
    expect(dailyLosses({ exchanger: unit, daily: record({}), cycles: [] }).day).toHaveLength(0);
  });

  it('of a held outlet bridges the extra flow as it does the rest', () => {
    const held = roundUnit({ area: 20 }, { heldOutlet: 'hot', maximumFlow: { hot: null, cold: 40 } });
    const losses = dailyLosses({ exchanger: held, daily: record({ 0: 9, 2: 9 }), cycles: running });
    expect([...losses.heat]).toEqual([0, 0, 0]);
    expect(losses.extraFlow[1]).toBeCloseTo(losses.extraFlow[0]!, 12);
    expect([...losses.marginLeft]).toEqual([0.5, 0.5, 0.5]);
  });
});
