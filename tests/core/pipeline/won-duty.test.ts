import { describe, expect, it } from 'vitest';
import { wonDutyOf } from '@/lib/core/pipeline/won-duty';
import { dailyRecord } from '../../support/daily-record';
import { constantFluid, NO_LOSS_SETTINGS, solveForward, waterUnit } from '../../support/forward-readings';

const unit = waterUnit({ hot: constantFluid(4180), cold: constantFluid(4180) });
const fouling = (day: number) => 2e-6 * day;
const daily = dailyRecord(unit, { days: 30, fouling, noise: 0, seed: 1 });
const dutyAt = (resistance: number) => solveForward(unit, { ...unit.design, fouling: resistance }).duty;

describe('duty won against another fouling', () => {
  it('is what the forward model of the unit says at the same inlets and flows', () => {
    const won = wonDutyOf(unit, daily);
    for (const row of [0, 10, 29]) {
      for (const other of [0, 5e-5, 2e-4]) {
        const expected = dutyAt(fouling(row)) - dutyAt(other);
        expect(Math.abs(won(row, other) - expected)).toBeLessThan(1e-6 * dutyAt(0));
      }
    }
  });

  it('is nothing against the fouling it has, and has the sign of the difference', () => {
    const won = wonDutyOf(unit, daily);
    expect(won(10, fouling(10))).toBe(0);
    expect(won(10, 1e-4)).toBeGreaterThan(0);
    expect(won(10, 0)).toBeLessThan(0);
  });

  it('needs no temperature that is not measured, where flow and specific heat tell the capacity rate', () => {
    const without = dailyRecord(unit, { days: 30, fouling, noise: 0, seed: 1 });
    without.coldOut.fill(Number.NaN);
    const [whole, part] = [wonDutyOf(unit, daily)(20, 2e-4), wonDutyOf(unit, without)(20, 2e-4)];
    expect(Math.abs(part / whole - 1)).toBeLessThan(1e-9);
    without.coldIn.fill(Number.NaN);
    expect(wonDutyOf(unit, without)(20, 2e-4)).toBeNaN();
  });

  it('is nothing where a control valve holds the outlet', () => {
    const held = waterUnit({ ...unit, losses: { ...NO_LOSS_SETTINGS, heldOutlet: 'cold' } });
    expect(wonDutyOf(held, daily)(10, 1e-4)).toBe(0);
    const blank = dailyRecord(held, { days: 1, fouling, noise: 0, seed: 1 });
    blank.hotIn.fill(Number.NaN);
    expect(wonDutyOf(held, blank)(0, 1e-4)).toBeNaN();
  });
});
