import { expect } from 'vitest';

/** Rounding of the last digit itself, so that an exact tie does not depend on the last bit. */
const TIE = 1e-9;

/** Half a unit in the last of so many significant digits of a printed value. */
export function halfLastDigit(printed: number, digits: number): number {
  if (printed === 0) return 0;
  return 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(printed))) + 1 - digits) * (1 + TIE);
}

/** Expects a value to agree with a printed one to its significant digits, give or take a relative tolerance. */
export function expectPrinted(
  actual: number,
  printed: number,
  { digits, relative = 0, label = '' }: { digits: number; relative?: number; label?: string },
): void {
  const tolerance = halfLastDigit(printed, digits) + relative * Math.abs(printed);
  expect(Math.abs(actual - printed), `${label} ${actual} against ${printed}`).toBeLessThanOrEqual(tolerance);
}
