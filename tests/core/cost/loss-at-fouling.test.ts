import { describe, expect, it } from 'vitest';
import { losingUnit } from '@/lib/core/cost/losing-unit';
import { type LatelyGiven, lossAtFouling } from '@/lib/core/cost/loss-at-fouling';
import { lossTable } from '@/lib/core/cost/loss-table';
import { roundUnit, sameEveryDay } from '../../support/losing-unit';

const NO_ROWS = sameEveryDay([], {});
/** The unit of the worked example: 40 kW/K hot from 90 °C, 80 kW/K cold from 30 °C. */
const lately: LatelyGiven = {
  conditions: {
    hotIn: 90,
    coldIn: 30,
    hotCapacityRate: 40_000,
    coldCapacityRate: 80_000,
    hotMassFlow: 10,
    coldMassFlow: 20,
    cleanU: 2000,
  },
  fouling: 5e-4,
  isClearlyFouled: true,
  pressureDrop: { hot: Number.NaN, cold: 50_000 },
};
const clean30 = { cleanPressureDrop: { hot: null, cold: 30_000 } };

describe('what an ordinary unit loses at a fouling', () => {
  const lossAt = lossAtFouling(losingUnit(roundUnit({}, clean30), NO_ROWS, []), lately);

  it('is the duty of the clean unit less its own, by ε-NTU worked by hand', () => {
    expect(lossAt(0).lostDuty).toBe(0);
    // U = 1000: 1859.04 − 1355.36 kW (see the worked example).
    expect(lossAt(5e-4).lostDuty / 1000).toBeCloseTo(503.68, 2);
  });

  it('pumps against a pressure drop that grows in proportion to the fouling', () => {
    expect(lossAt(5e-4).pumping).toBeCloseTo(571.4286, 4);
    expect(lossAt(2.5e-4).pumping).toBeCloseTo(571.4286 / 2, 4);
    expect(lossAt(0).pumping).toBeCloseTo(0, 9);
  });

  it('pumps as today at any fouling where today’s is not clear of nothing', () => {
    const unit = losingUnit(roundUnit({}, clean30), NO_ROWS, []);
    const unsure = lossAtFouling(unit, { ...lately, fouling: 1e-6, isClearlyFouled: false });
    expect(unsure(5e-4).pumping).toBeCloseTo(571.4286, 4);
  });

  it('says nothing of pumping where no pressure drop is known', () => {
    const unit = losingUnit(roundUnit(), NO_ROWS, []);
    expect(lossAtFouling(unit, lately)(5e-4).pumping).toBeNaN();
  });

  it('keeps to half the clean resistance below nothing', () => {
    expect(lossAt(-1)).toEqual(lossAt(-0.5 / 2000));
  });
});

describe('what a unit with a held outlet loses at a fouling', () => {
  const films = { hotShare: 1, wallShare: 0, hotExponent: 0.7, coldExponent: 0.7 };
  /** As in the test of the held outlet: today 20 kg/s of cold water, 10 kg/s would do for the clean unit. */
  const given: LatelyGiven = {
    ...lately,
    fouling: 20 / 32_437.2 - 1 / 2000,
    pressureDrop: { hot: Number.NaN, cold: Number.NaN },
  };
  const heldUnit = (maximum: number | null) =>
    losingUnit(
      roundUnit(
        { area: 20, films },
        {
          heldOutlet: 'hot',
          pumpHead: { hot: null, cold: 200_000 },
          maximumFlow: { hot: null, cold: maximum },
        },
      ),
      NO_ROWS,
      [],
    );

  it('is the pumping of its extra flow, and no duty', () => {
    const lossAt = lossAtFouling(heldUnit(null), given);
    expect(lossAt(given.fouling)).toEqual({ lostDuty: 0, pumping: expect.closeTo(2857.14, 1) });
    expect(lossAt(0).pumping).toBeCloseTo(0, 6);
    expect(lossAt(given.fouling * 1.2).pumping).toBeGreaterThan(2857.15);
  });

  it('is duty once the valve is fully open, from then on at that flow', () => {
    // Valve fully open at today's 20 kg/s (80 kW/K): with twice the fouling ε-NTU of counter-current flow by hand.
    const lossAt = lossAtFouling(heldUnit(20), given);
    const fouling = 2 * given.fouling;
    const ntu = 20 / (1 / 2000 + fouling) / 40_000;
    const decay = Math.exp(-ntu * 0.5);
    const duty = ((1 - decay) / (1 - 0.5 * decay)) * 2.4e6;
    expect((1.2e6 - lossAt(fouling).lostDuty) / duty).toBeCloseTo(1, 4);
    expect(lossAt(fouling).pumping).toBeCloseTo(2857.14, 1);
  });

  it('is not known where the valve sets the flow of steam', () => {
    const steam = losingUnit(
      roundUnit({ hot: { kind: 'steam', pressure: 300_000 } }, { heldOutlet: 'cold' }),
      NO_ROWS,
      [],
    );
    const onSteam = {
      ...given,
      conditions: { ...given.conditions, hotIn: 133.5, hotCapacityRate: Number.POSITIVE_INFINITY },
    };
    expect(lossAtFouling(steam, onSteam)(1e-4)).toEqual({ lostDuty: 0, pumping: Number.NaN });
  });
});

describe('losses looked up', () => {
  const lossAt = lossAtFouling(losingUnit(roundUnit({}, clean30), NO_ROWS, []), lately);
  const losses = lossTable(lossAt, 2000);
  const at = (fouling: number) => losses.expected(Float64Array.of(fouling), Float64Array.of(1));
  const table = {
    lostDuty: (fouling: number) => at(fouling).lostDuty,
    pumping: (fouling: number) => at(fouling).pumping,
  };

  it('are those worked out, to a ten-thousandth of the duty', () => {
    for (const fouling of [-2e-4, 0, 1e-6, 5e-5, 3e-4, 5e-4, 2e-3]) {
      expect(Math.abs(table.lostDuty(fouling) - lossAt(fouling).lostDuty)).toBeLessThan(1e-4 * 1.86e6);
      expect(Math.abs(table.pumping(fouling) - lossAt(fouling).pumping)).toBeLessThan(2);
    }
  });

  it('end with the least conductance, and with the cleanest', () => {
    expect(table.lostDuty(1)).toBe(table.lostDuty(100));
    expect(table.lostDuty(1)).toBeLessThan(1.86e6);
    expect(table.lostDuty(-1)).toBe(table.lostDuty(-0.25 / 1000));
  });
});
