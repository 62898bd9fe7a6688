import { describe, expect, test } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { mainFigures } from '@/lib/report/unit/main-figures';
import { typicalBudget } from '@/lib/report/unit/typical-budget';
import { certaintyView } from '@/lib/report/unit/uncertainty-budget';
import { suspectRows } from '@/lib/report/worked/suspect-rows';
import { workedState } from '@/lib/report/worked/worked-state';
import { freshRecords, linearTrend, unitRecords } from '../support/unit-records';

/** Half of each default uncertainty as noise: 0.1 K and 1 %. */
function noisy(readings: ReadingColumns): void {
  const random = makeRandom(31);
  for (const sensor of ['hotIn', 'hotOut', 'coldIn', 'coldOut'] as const) {
    for (let i = 0; i < readings.time.length; i++) readings[sensor][i]! += 0.1 * random.normal();
  }
  for (const sensor of ['hotFlow', 'coldFlow'] as const) {
    for (let i = 0; i < readings.time.length; i++) readings[sensor][i]! *= 1 + 0.01 * random.normal();
  }
}

/** The trend with growth that was really fitted, so that clean-by dates follow from it. */
function fittedTrend() {
  const trend = linearTrend();
  const days = Array.from({ length: 80 }, (_, day) => day);
  const growth = fitGrowth({
    ageDays: days,
    foulingResistance: days.map((day) => 1.5e-6 * day + 3e-6 * Math.sin(day * 2.3)),
    uncertainty: days.map(() => 3e-6),
    systematicUncertainty: 1e-5,
  });
  return { ...trend, growth };
}

const records = { ...unitRecords(noisy), trend: fittedTrend() };
const certainty = certaintyView(records, typicalBudget(records), 'si')!;
const view = certainty.budget!;

describe('what limits the certainty', () => {
  test('says in one sentence which sensor it is, and what a better one would buy', () => {
    expect(view.sentence).toMatch(
      /^\d+ % of u²\(Rf\) of a day comes from the (hot|cold) \w+( temperature)?; halving its uncertainty would narrow Rf from ± [\d.]+ m²·K\/kW to ± [\d.]+ m²·K\/kW\.$/,
    );
  });

  test('lists the causes by share, adding to everything', () => {
    const shares = view.rows.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 2);
    expect(view.rows.map(({ label }) => label)).toContain('Cold outlet temperature');
  });

  test('says for halved and better instruments Rf, the share of the allowance and the days between P10 and P90', () => {
    for (const row of view.rows.filter(({ key }) => key !== 'scatter')) {
      expect(row.halved).toMatch(/^± [\d.]+ · ± [\d.]+ % · \d+ d$/);
    }
    const hotIn = view.rows.find(({ key }) => key === 'hotIn')!;
    expect(hotIn.has).toBe('± 0.20 K');
    expect(hotIn.better).toMatch(/^0\.1 K: ± /);
  });

  test('names the reading it holds for', () => {
    expect(view.basis).toMatch(/^At the reading of \d+ May 2025/);
    expect(view.basis).toContain('a day is the median of 24 readings');
  });

  test('says what measuring an inferred flow would buy', () => {
    const without = unitRecords((readings) => {
      noisy(readings);
      readings.hotFlow.fill(Number.NaN);
    });
    const { budget, suspects } = certaintyView(without, typicalBudget(without), 'us')!;
    const found = budget!;
    expect(found.rows.find(({ key }) => key === 'hotFlow')).toMatchObject({
      has: 'inferred from the balance',
      shareText: '0.0 %',
      halved: '',
    });
    expect(found.rows.find(({ key }) => key === 'hotFlow')!.better).toMatch(/^measured to 0\.5 %: ± /);
    expect(found.sentence).toMatch(/Measuring the hot flow, which is inferred, would narrow it to ± /);
    expect(suspects).toBeNull();
  });

  test('is not there without an accepted reading', () => {
    const fresh = freshRecords();
    expect(certaintyView(fresh, typicalBudget(fresh), 'si')).toBeNull();
  });
});

describe('suspects', () => {
  test('are named only where the balance is off', () => {
    expect(certainty.suspects).toBeNull();
    const off = unitRecords((readings) => {
      noisy(readings);
      for (let i = 0; i < readings.time.length; i++) readings.hotFlow[i]! *= 1.14;
    });
    const { suspects } = certaintyView(off, typicalBudget(off), 'si')!;
    expect(suspects!.lead).toMatch(
      /the hot side gave more heat than the cold side took, by 1\d\.\d ± \d\.\d % of the duty/,
    );
    expect(suspects!.lead).toContain('blames none');
    const [first, second] = suspects!.rows;
    expect([first!.label, second!.label].sort()).toEqual(['Cold flow', 'Hot flow']);
    expect(second!.standing).toBe('cannot be told from the first');
    const hot = suspects!.rows.find(({ key }) => key === 'hotFlow')!;
    expect(hot.bias).toMatch(/^\+1\d(\.\d)? ± \d(\.\d)? %$/);
    expect(suspects!.note).toContain('look alike in any heat balance');
  });

  test('are named even where every reading was left out for its balance', () => {
    const off = unitRecords((readings) => {
      for (let i = 0; i < readings.time.length; i++) readings.hotFlow[i]! *= 1.14;
    });
    expect(off.evaluation.reasons.every((reasons) => reasons !== 0)).toBe(true);
    const found = certaintyView(off, typicalBudget(off), 'si')!;
    expect(found.budget).toBeNull();
    expect(found.suspects!.rows[0]!.label).toMatch(/^(Hot|Cold) flow$/);
  });

  test('of one reading are the errors that would close its balance, the least first', () => {
    const state = workedState(records, records.evaluation.time.length - 30)!;
    const rows = suspectRows(state, 'si');
    expect(rows).toHaveLength(6);
    expect(rows[0]!.inUncertainties).toMatch(/^[+−]\d\.\d$/);
    expect(rows.find(({ label }) => label === 'hot flow')!.share).toMatch(/ %$/);
    expect(rows.find(({ label }) => label === 'hot inlet temperature')).toMatchObject({ share: '' });
  });
});

describe('the main figures', () => {
  test('have their uncertainty: U, duty and lost duty', () => {
    const figures = mainFigures(records, 'si', typicalBudget(records));
    for (const label of ['U', 'Duty', 'Lost duty']) {
      expect(figures.find((figure) => figure.label === label)!.figure.uncertainty).toMatch(/\d/);
    }
    const bare = mainFigures(records, 'si', null);
    expect(bare.find(({ label }) => label === 'Duty')!.figure.uncertainty).toBeNull();
  });
});
