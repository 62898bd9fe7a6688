import { expect, test } from 'vitest';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';

const SPECS: FluidSpec[] = [
  { kind: 'water', pressure: null },
  { kind: 'seawater', salinity: 0.035 },
  { kind: 'air', pressure: null },
  { kind: 'propylene-glycol', massFraction: 0.3 },
];

test.each(SPECS)(
  'several properties at once are those asked for one by one, beyond the range too: %o',
  (spec) => {
    const fluid = makeFluid(spec);
    const { minimum, maximum } = fluid;
    const out = new Float64Array(6);
    for (let step = -2; step <= 503; step++) {
      const t = step === 501 ? maximum : minimum + ((maximum - minimum) * step) / 501;
      fluid.heatInto!(Float64Array.of(0, t), 1, out, 1);
      fluid.filmInto!(Float64Array.of(t), 0, out, 3);
      const oneByOne = [
        fluid.enthalpy,
        fluid.specificHeat,
        fluid.conductivity!,
        fluid.specificHeat,
        fluid.viscosity!,
      ];
      expect([...out.subarray(1)]).toEqual(oneByOne.map((property) => property(t)));
    }
  },
);
