import { PRESSURE_DROP_EXPONENT, pressureDropAtReference } from '@/lib/core/series/pressure-drop';
import { type Check, single } from './check';
import { relative } from './tolerance';

/**
 * McAdams, Heat Transmission, 3rd ed. 1954: friction factor f = 0.184·Re^−0.2 of turbulent flow in smooth tubes, hence
 * Δp ∝ f·ṁ² ∝ ṁ^1.8. The factors below are this formula's (recalled, not read in
 * print), worked out to three digits.
 */
const FACTORS = [
  { reynolds: 20_000, factor: 0.0254 },
  { reynolds: 40_000, factor: 0.0221 },
  { reynolds: 100_000, factor: 0.0184 },
  { reynolds: 200_000, factor: 0.016 },
];
const REFERENCE = { reynolds: 100_000, factor: 0.0184 };

export function pressureChecks(): Check[] {
  return FACTORS.map(({ reynolds, factor }) => {
    // Δp ∝ f·Re² in one tube with one fluid.
    const measured = factor * reynolds ** 2;
    const scaled = pressureDropAtReference(measured, reynolds / REFERENCE.reynolds, PRESSURE_DROP_EXPONENT);
    return single({
      id: `pressure drop at Re ${reynolds}`,
      quantity: `friction factor at Re 100,000 from the pressure drop at Re ${reynolds}`,
      unit: '–',
      source: 'McAdams',
      origin: 'recalled',
      tolerance: relative(0.003, 'three digits'),
      theirs: REFERENCE.factor,
      ours: scaled / REFERENCE.reynolds ** 2,
    });
  });
}
