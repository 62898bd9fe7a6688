import { describe, expect, it } from 'vitest';
import { PRESSURE_DROP_EXPONENT, pressureDropAtReference } from '@/lib/core/series/pressure-drop';
import { testChecks } from '../support/table-test';
import { pressureChecks } from './checks/pressure';

describe('pressure drop scaled to the design flow follows the friction factor of McAdams', () => {
  testChecks(pressureChecks());

  it('does not move at the design flow', () => {
    expect(pressureDropAtReference(45_000, 1, PRESSURE_DROP_EXPONENT)).toBe(45_000);
  });
});
