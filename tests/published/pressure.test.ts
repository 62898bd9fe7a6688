import { describe, expect, it } from 'vitest';
import { pressureDropAtReference } from '@/lib/core/series/daily-figures';

/**
 * McAdams, Heat Transmission, 3rd ed. 1954: friction factor f = 0.184·Re^−0.2 of turbulent flow in smooth tubes, hence
 * Δp ∝ f·ṁ² ∝ ṁ^1.8. The factors below are this formula's (recalled, not read in
 * print), worked out to three digits.
 */
const TABLE = [
  { reynolds: 20_000, factor: 0.0254 },
  { reynolds: 40_000, factor: 0.0221 },
  { reynolds: 100_000, factor: 0.0184 },
  { reynolds: 200_000, factor: 0.016 },
];

describe('pressure drop scaled to the design flow', () => {
  for (const { reynolds, factor } of TABLE) {
    it(`follows the friction factor ${factor} at Re = ${reynolds} to its digits`, () => {
      // Δp ∝ f·Re² in one tube with one fluid; the reference is Re = 100,000 with f = 0.0184.
      const measured = factor * reynolds ** 2;
      const scaled = pressureDropAtReference(measured, reynolds, 100_000);
      expect(Math.abs(scaled / (0.0184 * 100_000 ** 2) - 1)).toBeLessThan(0.003);
    });
  }

  it('does not move at the design flow', () => {
    expect(pressureDropAtReference(45_000, 25, 25)).toBe(45_000);
  });
});
