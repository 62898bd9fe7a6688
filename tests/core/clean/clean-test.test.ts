import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { cleanTestScale } from '@/lib/core/clean/clean-test';
import { makeReadingColumns } from '@/lib/core/series/reading-columns';
import { readingsOf, solveForward, waterUnit } from '../../support/forward-readings';

const exchanger = waterUnit();
/** A clean unit that really has 8 % more resistance than its datasheet says, tested away from its duty point. */
const FACTOR = 1.08;
const installed = waterUnit({
  design: { ...exchanger.design, cleanU: exchanger.design.cleanU! / FACTOR },
});
const tested = solveForward(installed, { hotIn: 76, coldIn: 17, hotFlow: 15, coldFlow: 22, fouling: 0 });

describe('a clean reference from one test', () => {
  it('is the factor that the unit truly has on its clean resistance', () => {
    const { scale, reasons } = cleanTestScale(exchanger, DEFAULT_CHECK_SETTINGS, readingsOf([tested]));
    expect(reasons).toEqual([]);
    expect(Math.abs(scale! - FACTOR)).toBeLessThan(1e-5);
  });

  it('carries the uncertainty of the sensors', () => {
    const test = cleanTestScale(exchanger, DEFAULT_CHECK_SETTINGS, readingsOf([tested]));
    if (test.scale === null) throw new Error('the test was left out');
    // 2 % on two flows and 0.2 K on four temperatures: some per cent of U, by whatever route.
    expect(test.uncertainty).toBeGreaterThan(0.01);
    expect(test.uncertainty).toBeLessThan(0.08);
  });

  it('takes a test with one value missing, which follows from the balance', () => {
    const reading = readingsOf([tested]);
    reading.coldFlow[0] = Number.NaN;
    const { scale } = cleanTestScale(exchanger, DEFAULT_CHECK_SETTINGS, reading);
    expect(Math.abs(scale! - FACTOR)).toBeLessThan(1e-5);
  });

  it('refuses a test whose balance does not close, or that lacks too much, and says why', () => {
    const open = readingsOf([tested]);
    open.coldFlow[0] = 30;
    expect(cleanTestScale(exchanger, DEFAULT_CHECK_SETTINGS, open)).toEqual({
      scale: null,
      reasons: ['balance-not-closed'],
    });
    const bare = readingsOf([tested]);
    bare.coldFlow[0] = Number.NaN;
    bare.hotFlow[0] = Number.NaN;
    expect(cleanTestScale(exchanger, DEFAULT_CHECK_SETTINGS, bare).reasons).toContain('missing');
    expect(() => cleanTestScale(exchanger, DEFAULT_CHECK_SETTINGS, makeReadingColumns(2))).toThrow(
      RangeError,
    );
  });
});
