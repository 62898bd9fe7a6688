import { describe, expect, it } from 'vitest';
import { doneResult } from '@/lib/report/work-list/done-result';
import { fleetOf, NOW } from '../support/fleet-records';

const DAY_MS = 86_400_000;

describe('what a piece of done work did', () => {
  it('is told from the measured result of its cleaning, with the share recovered and its uncertainty', () => {
    const fleet = fleetOf([{ tag: 'S-1', cleaned: [60] }]);
    const unit = fleet.units[0]!;
    const { at } = unit.cleanings[0]!;
    const effect = {
      ...{ before: 3e-4, beforeUncertainty: 1e-5, after: 3e-5, afterUncertainty: 1e-5 },
      ...{ recovered: 2.7e-4, recoveredUncertainty: 1e-5, shareRecovered: 0.9 },
      ...{ shareRecoveredUncertainty: 0.04, isPartial: false, dutyRecovered: 52_000, energySoFar: 1e11 },
      ...{ daysCounted: 58, daysElapsed: 60, daysUntilBack: null },
    };
    unit.trend!.cleaningResults = [{ at, localDay: Math.floor(at / DAY_MS), effect, reason: null }];
    const told = doneResult(unit, { at, fleet, system: 'si' });
    expect(told).toMatchObject({ hasResult: true, recovered: '90 ± 4 %', until: 'in 58 of 60 days' });
    expect(told.duty).toMatch(/^52(\.0)? kW$/);
  });

  it('is too early to tell while there are no figures of three days after it', () => {
    const fleet = fleetOf([{ tag: 'S-1', cleaned: [60] }]);
    const unit = fleet.units[0]!;
    const { at } = unit.cleanings[0]!;
    const words = 'too early to tell: needs figures of 3 days after it';
    const reason = 'too-few-after' as const;
    unit.trend!.cleaningResults = [{ at, localDay: Math.floor(at / DAY_MS), effect: null, reason }];
    expect(doneResult(unit, { at, fleet, system: 'si' })).toMatchObject({
      hasResult: false,
      recovered: words,
    });
    expect(doneResult(unit, { at: NOW + DAY_MS, fleet, system: 'si' }).recovered).toBe(words);
  });
});
