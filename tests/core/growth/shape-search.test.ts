import { describe, expect, it } from 'vitest';
import { searchShape } from '@/lib/core/growth/shape-search';

describe('search over a shape', () => {
  it('finds the best place and covers three standard deviations on both sides', () => {
    const { best, places } = searchShape((place) => ((place - 0.4) / 0.05) ** 2, {
      range: [0, 1],
      coarse: 9,
    });
    expect(best).toBeCloseTo(0.4, 3);
    expect(places).toHaveLength(11);
    expect(places[0]).toBeGreaterThan(0.25);
    expect(places[0]).toBeLessThan(0.28);
    expect(places[5]).toBeCloseTo(0.4, 1);
    expect(places[10]).toBeGreaterThan(0.52);
    expect(places[10]).toBeLessThan(0.55);
  });

  it('stops at the ends of the range where the figures leave them open', () => {
    const { places } = searchShape((place) => place, { range: [0, 1], coarse: 9 });
    expect(places[0]).toBeCloseTo(0.5 / 11, 6);
    expect(places[10]).toBeCloseTo(10.5 / 11, 6);
  });
});
