import { describe, expect, it } from 'vitest';
import { toSi } from '@/lib/contract/ucum';
import { unitChecks } from '../published/checks/units';
import { testChecks } from '../support/table-test';

describe('toSi', () => {
  // Factors from NIST Special Publication 811 (2008), appendix B.8, to the digits printed there (from memory).
  testChecks(unitChecks());

  it('reads temperatures on all four scales', () => {
    // Fixed points by definition: 32 °F and 273.15 K are 0 °C; 212 °F and 671.67 °R are 100 °C.
    expect(toSi(32, '[degF]', 'temperature')).toBeCloseTo(0, 12);
    expect(toSi(212, '[degF]', 'temperature')).toBeCloseTo(100, 12);
    expect(toSi(50, '[degF]', 'temperature')).toBeCloseTo(10, 12);
    expect(toSi(273.15, 'K', 'temperature')).toBe(0);
    expect(toSi(671.67, '[degR]', 'temperature')).toBeCloseTo(100, 9);
  });

  it('takes a difference of temperature for a difference', () => {
    expect(toSi(18, '[degF]', 'temperatureDifference')).toBeCloseTo(10, 12);
    expect(toSi(10, 'K', 'temperatureDifference')).toBe(10);
    expect(toSi(0.5, 'Cel', 'temperatureDifference')).toBe(0.5);
    expect(toSi(0.5, '°C', 'temperatureDifference')).toBe(0.5);
  });

  it('reads degrees inside a compound unit as differences', () => {
    expect(toSi(1, 'W/(m2.Cel)', 'conductance')).toBe(1);
    expect(toSi(1, 'kJ/(kg.Cel)', 'specificHeat')).toBe(1000);
  });

  it('knows common spellings', () => {
    expect(toSi(10, 'm³/h', 'volumeFlow')).toBeCloseTo(10 / 3600, 15);
    expect(toSi(10, 'gpm', 'volumeFlow')).toBe(toSi(10, '[gal_us]/min', 'volumeFlow'));
    expect(toSi(20, '°C', 'temperature')).toBe(20);
    expect(toSi(68, 'degF', 'temperature')).toBeCloseTo(20, 12);
  });

  it('gives null for a unit of another kind, an unknown one and none', () => {
    expect(toSi(1, 'm3/h', 'massFlow')).toBeNull();
    expect(toSi(1, 'kg/s', 'temperature')).toBeNull();
    expect(toSi(1, 'furlong', 'area')).toBeNull();
    expect(toSi(1, '', 'area')).toBeNull();
    for (const unit of ['constructor', 'kg / s', '10*400.kg/s', '0.kg/s', '__proto__']) {
      expect(toSi(1, unit, 'massFlow'), unit).toBeNull();
      expect(toSi(1, unit, 'temperature'), unit).toBeNull();
    }
  });
});
