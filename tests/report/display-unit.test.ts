import { describe, expect, it } from 'vitest';
import { conversionToSi, type Kind } from '@/lib/contract/ucum';
import { DISPLAY_KINDS, displayUnit, fromDisplay, toDisplay } from '@/lib/report/format/display-unit';
import { PSI } from '@/lib/report/format/factors';
import { UNIT_SYSTEMS } from '@/lib/report/format/unit-system';

/** Kinds the contract measures too; the UCUM library is the oracle for their factors. */
const CHECKED: Kind[] = [
  'temperature',
  'temperatureDifference',
  'massFlow',
  'volumeFlow',
  'power',
  'energy',
  'conductance',
  'foulingResistance',
  'area',
  'pressure',
  'specificHeat',
  'density',
  'viscosity',
  'conductivity',
  'fraction',
];
const LARGE = 1e12;

describe('units of the screens', () => {
  for (const system of UNIT_SYSTEMS) {
    for (const kind of CHECKED) {
      it(`${kind} in ${system.toUpperCase()} has the factor of the UCUM tables`, () => {
        if (!(DISPLAY_KINDS as string[]).includes(kind)) throw new Error(`no display unit for ${kind}`);
        for (const largest of [0, LARGE]) {
          const shown = displayUnit(kind as (typeof DISPLAY_KINDS)[number], system, largest);
          const oracle = conversionToSi(shown.ucum, kind);
          expect(oracle, `${shown.ucum} is a unit of ${kind}`).not.toBeNull();
          expect(shown.factor / oracle!.factor).toBeCloseTo(1, 9);
          expect(shown.offset).toBeCloseTo(oracle!.offset, 9);
        }
      });
    }
  }

  it('every kind goes to the screen and back unchanged in both systems', () => {
    for (const system of UNIT_SYSTEMS) {
      for (const kind of DISPLAY_KINDS) {
        const shown = displayUnit(kind, system);
        expect(fromDisplay(toDisplay(12.5, shown), shown)).toBeCloseTo(12.5, 9);
      }
    }
  });

  // NIST SP 811 (2008), B.8: factors as printed, seven digits.
  it.each([
    ['conductance', 'us', 5.678263],
    ['area', 'us', 0.09290304],
    ['massFlow', 'us', 1.259979e-4],
    ['density', 'us', 16.01846],
    ['specificHeat', 'us', 4186.8],
  ] as const)('%s in %s has the factor printed by NIST SP 811', (kind, system, printed) => {
    expect(displayUnit(kind, system).factor / printed).toBeCloseTo(1, 6);
  });

  it('one psi is 6894.757 Pa as NIST SP 811 prints it', () => {
    expect(PSI).toBeCloseTo(6894.757, 3);
  });

  it('10 K of difference are 18 °F of difference, and 10 °C are 50 °F', () => {
    expect(toDisplay(10, displayUnit('temperatureDifference', 'us'))).toBeCloseTo(18, 12);
    expect(toDisplay(10, displayUnit('temperature', 'us'))).toBeCloseTo(50, 12);
  });

  it('power turns from kW to MW at ten MW, from kBtu/h to MMBtu/h at ten MMBtu/h', () => {
    expect(displayUnit('power', 'si', 9.9e6).label).toBe('kW');
    expect(displayUnit('power', 'si', -1e7).label).toBe('MW');
    expect(displayUnit('power', 'us', 2.9e6).label).toBe('kBtu/h');
    expect(displayUnit('power', 'us', 3e6).label).toBe('MMBtu/h');
  });
});
