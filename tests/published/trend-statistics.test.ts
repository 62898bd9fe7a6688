import { describe, expect, it } from 'vitest';
import { huberFit } from '@/lib/core/fit/huber';
import { leastSquares } from '@/lib/core/fit/least-squares';
import { hampelSpikes } from '@/lib/core/stats/hampel';
import { tieGroups } from '@/lib/core/stats/mann-kendall';
import { weightedLine } from '@/lib/core/stats/weighted-line';
import { testChecks } from '../support/table-test';
import { trendCase } from './checks/trend-data';
import { trendStatisticsChecks } from './checks/trend-statistics';

describe('trend statistics', () => {
  testChecks(trendStatisticsChecks());

  it.each(['mann-kendall-nile', 'mann-kendall-nhtemp'])('%s: groups of ties', (id) => {
    const one = trendCase(id);
    expect(tieGroups(one.y)).toEqual(one.tie_groups);
  });

  it('Huber weights below 1 are those of the published points and of no other', () => {
    const one = trendCase('huber-stackloss');
    const fit = huberFit([one.y.map(() => 1), one.x1, one.x2, one.x3], one.y);
    const below = Array.from(fit.weights).flatMap((weight, i) => (weight < 1 ? [String(i + 1)] : []));
    expect(below).toEqual(Object.keys(one.weights_below_one));
  });

  it('a weighted line has the covariance of the general route', () => {
    const one = trendCase('weighted-least-squares');
    const line = weightedLine(one.x, one.y, one.weights);
    const fit = leastSquares([one.x.map(() => 1), one.x], one.y, one.weights);
    expect(Math.abs(fit.covariance[0]![1]! / line.covariance - 1)).toBeLessThan(1e-8);
  });

  it('the Hampel identifier does not flag a blip of frozen data below the floor of the scale', () => {
    const one = trendCase('hampel-frozen-with-blip');
    expect(Array.from(hampelSpikes(one.y, one.k, { scaleFloor: 0.01 }))).not.toContain(1);
  });
});
