import { describe, expect, it } from 'vitest';
import { flowDependenceInWords } from '@/lib/report/unit/flow-dependence-words';

const references = { hotReference: 20, coldReference: 25 };

describe('what of the fouling resistance follows the flows, in words', () => {
  it('is nothing where nothing does', () => {
    expect(flowDependenceInWords({ flowDependence: null }, 'si')).toBeNull();
  });

  it('names the change on doubling of each flow that it follows, and only of those', () => {
    const both = flowDependenceInWords(
      { flowDependence: { hot: 2e-5 / Math.LN2, cold: -3e-5 / Math.LN2, ...references } },
      'si',
    )!;
    expect(both).toContain(
      'goes up by 0.020 m²·K/kW when the hot flow doubles and down by 0.030 m²·K/kW when the cold flow doubles',
    );
    const one = flowDependenceInWords({ flowDependence: { hot: 0, cold: 1e-5, ...references } }, 'si')!;
    expect(one).not.toContain('hot flow');
  });
});
