import { airConductivity, airDensity, airSpecificHeat, airViscosity } from '@/lib/core/fluids/air';
import { type Check, single } from './check';
import { fluidRows, grid, SAME_FORMULA, written } from './fluid-data';
import { digits } from './tolerance';

/** Below this the file's conductivity of air holds a critical enhancement [°C], 3e-5 at most, that is left out here. */
const ENHANCED_BELOW = 265.262 - 273.15;

export function airChecks(): Check[] {
  const rows = fluidRows('dry air');
  const density = (row: number[]) => airDensity(row[1]!, row[0]! * 1e6);
  const at = (row: number[]) => `${row[0]} MPa, ${row[1]} °C`;
  const conductivity = {
    unit: 'W/(m·K)',
    source: 'Lemmon & Jacobsen 2004' as const,
    at,
    place: 5,
    ours: (row: number[]) => airConductivity(row[1]!, density(row)),
  };
  const dilute = { source: 'Lemmon & Jacobsen 2004', origin: 'recalled', at: '300 K, dilute gas' } as const;
  return [
    grid({
      id: 'air density',
      quantity: 'density of dry air',
      unit: 'kg/m³',
      source: 'Lemmon 2000',
      tolerance: digits(8, 'as the file gives', 5e-8),
      rows,
      at,
      place: 2,
      ours: density,
    }),
    grid({
      id: 'air specific heat',
      quantity: 'specific heat of dry air',
      unit: 'J/(kg·K)',
      source: 'Lemmon 2000',
      tolerance: written(8),
      rows,
      at,
      place: 3,
      ours: (row) => airSpecificHeat(row[1]!, density(row)),
    }),
    grid({
      id: 'air viscosity',
      quantity: 'viscosity of dry air',
      unit: 'Pa·s',
      source: 'Lemmon & Jacobsen 2004',
      tolerance: SAME_FORMULA,
      rows,
      at,
      place: 4,
      ours: (row) => airViscosity(row[1]!, density(row)),
    }),
    grid({
      ...conductivity,
      id: 'air conductivity',
      quantity: 'conductivity of dry air above −7.9 °C',
      tolerance: SAME_FORMULA,
      rows: rows.filter((row) => row[1]! >= ENHANCED_BELOW),
    }),
    grid({
      ...conductivity,
      id: 'air conductivity, cold',
      quantity: 'conductivity of dry air below −7.9 °C (theirs with critical enhancement)',
      tolerance: digits(7, 'the critical enhancement, which is left out', 3e-5),
      rows: rows.filter((row) => row[1]! < ENHANCED_BELOW),
    }),
    single({
      ...dilute,
      id: 'Lemmon & Jacobsen table V: viscosity',
      quantity: 'viscosity of dry air',
      unit: 'µPa·s',
      tolerance: digits(6, 'as the paper prints'),
      theirs: 18.523,
      ours: airViscosity(26.85, 0) * 1e6,
    }),
    single({
      ...dilute,
      id: 'Lemmon & Jacobsen table V: conductivity',
      quantity: 'conductivity of dry air',
      unit: 'mW/(m·K)',
      tolerance: digits(6, 'as the paper prints'),
      theirs: 26.3529,
      ours: airConductivity(26.85, 0) * 1e3,
    }),
  ];
}
