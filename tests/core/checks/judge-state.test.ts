import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { judgeBalance, judgeInferred, judgeTemperatures } from '@/lib/core/checks/judge-state';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { PLACE, unitModel } from '@/lib/core/fouling/unit-model';
import { waterUnit } from '../../support/forward-readings';

const counter = unitModel(waterUnit(), DEFAULT_CHECK_SETTINGS);
const coCurrent = unitModel(
  waterUnit({
    arrangement: { kind: 'co-current' },
    design: { hotIn: 80, hotOut: 65, coldIn: 20, coldOut: 32, hotFlow: 20, coldFlow: 25, cleanU: 1000 },
  }),
  DEFAULT_CHECK_SETTINGS,
);
const steam = unitModel(
  waterUnit({
    hot: { kind: 'steam', pressure: null },
    design: { hotIn: 120, hotOut: 120, coldIn: 40, coldOut: 80, hotFlow: 1.9, coldFlow: 25, cleanU: 2500 },
  }),
  DEFAULT_CHECK_SETTINGS,
);
const uncertainty = Float64Array.of(0.2, 0.2, 0.2, 0.2, 0.4, 0.5);
const judge = (model: typeof counter, temperatures: number[], u = uncertainty) =>
  reasonsOf(judgeTemperatures(model, Float64Array.from([...temperatures, 20, 25]), u));

describe('temperatures', () => {
  it('are reversed where the hot stream gains, the cold one loses, or the cold inlet is the warmer', () => {
    expect(judge(counter, [60, 61, 20, 30])).toEqual(['reversed-temperatures']);
    expect(judge(counter, [60, 50, 30, 29])).toEqual(['reversed-temperatures']);
    expect(judge(counter, [20, 15, 30, 40])).toEqual(['reversed-temperatures']);
    expect(judge(counter, [60, 60, 20, 30])).toEqual(['reversed-temperatures']);
  });

  it('have a terminal difference too small when it is below three times its own uncertainty (0.85 K here)', () => {
    expect(judge(counter, [60, 40, 20, 59.2])).toEqual(['terminal-difference-too-small']);
    expect(judge(counter, [60, 20.8, 20, 50])).toEqual(['terminal-difference-too-small']);
    expect(judge(counter, [60, 40, 20, 59.1])).toEqual([]);
    expect(judge(counter, [60, 40, 20, 61])).toEqual(['terminal-difference-too-small']);
  });

  it('may cross in counter-current flow, but not in co-current flow', () => {
    expect(judge(counter, [60, 35, 20, 40])).toEqual([]);
    expect(judge(coCurrent, [60, 35, 20, 40])).toEqual(['terminal-difference-too-small']);
    expect(judge(coCurrent, [60, 40.9, 20, 40])).toEqual([]);
  });

  it('taken as exact are only too close when they meet', () => {
    const exact = new Float64Array(6);
    expect(judge(counter, [60, 40, 20, 59.999], exact)).toEqual([]);
    expect(judge(counter, [60, 40, 20, 60], exact)).toEqual(['terminal-difference-too-small']);
  });

  it('of condensate may read above saturation within their noise', () => {
    expect(judge(steam, [120, 120.8, 40, 80])).toEqual([]);
    expect(judge(steam, [120, 121, 40, 80])).toEqual(['reversed-temperatures']);
  });
});

describe('a balance', () => {
  const closes = (balance: number, u: number) => judgeBalance(balance, u, DEFAULT_CHECK_SETTINGS) === 0;

  it('closes within a tenth, or within three times its own uncertainty where that is more', () => {
    expect(closes(0.099, 0.01)).toBe(true);
    expect(closes(-0.101, 0.01)).toBe(false);
    expect(closes(0.17, 0.06)).toBe(true);
    expect(closes(-0.19, 0.06)).toBe(false);
  });

  it('off by more than a quarter is not excused by rough sensors', () => {
    expect(closes(0.24, 0.2)).toBe(true);
    expect(closes(0.26, 0.2)).toBe(false);
  });

  it('that is not a number does not close', () => {
    expect(closes(Number.NaN, 0.1)).toBe(false);
  });
});

describe('an inferred sensor', () => {
  const at = (hotFlow: number, coldFlow: number) => Float64Array.of(80, 50, 20, 44, hotFlow, coldFlow);

  it('is judged when it is a flow, and not when it is the flow of condensing steam', () => {
    expect(reasonsOf(judgeInferred(counter, at(41, 25), PLACE.hotFlow))).toEqual(['out-of-range']);
    expect(reasonsOf(judgeInferred(counter, at(20, 7), PLACE.coldFlow))).toEqual(['flow-below-turndown']);
    expect(judgeInferred(counter, at(20, 25), PLACE.coldFlow)).toBe(0);
    expect(judgeInferred(counter, at(99, 99), PLACE.hotIn)).toBe(0);
    expect(judgeInferred(counter, at(99, 99), -1)).toBe(0);
    expect(judgeInferred(steam, at(0.01, 25), PLACE.hotFlow)).toBe(0);
  });
});
