import {
  type OilClass,
  oilConductivity,
  oilDensity,
  oilKinematicViscosity,
  oilSpecificHeat,
} from '@/lib/core/fluids/oil-properties';
import type { Check } from './check';
import { fluidCase, fluidRows, grid, SAME_FORMULA, written } from './fluid-data';
import { digits } from './tolerance';

/** Cragoe's formula knows no characterisation factor: it is one for oils near this one, give or take the second. */
const [CRAGOE_FACTOR, CRAGOE_REACH] = [11.8, 0.301];

function oilHeatChecks(): Check[] {
  const rows = fluidRows('petroleum oil: specific heat');
  const ours = (row: number[]) => {
    const [a, b] = oilSpecificHeat(row[0]!, row[1]!);
    return a + b * row[2]!;
  };
  const common = {
    unit: 'J/(kg·K)',
    origin: 'recalled' as const,
    at: (row: number[]) => `SG ${row[0]}, K ${row[1]}, ${row[2]} °C`,
    ours,
  };
  return [
    grid({
      ...common,
      id: 'oil cp, Watson & Nelson',
      quantity: 'specific heat of oils',
      source: 'Watson & Nelson 1933',
      tolerance: SAME_FORMULA,
      rows,
      place: 3,
    }),
    grid({
      ...common,
      id: 'oil cp, SI form',
      quantity: 'specific heat of oils, separate SI form',
      source: 'Riazi 2005',
      tolerance: digits(7, 'the two forms differ by so much', 5e-4),
      rows,
      place: 4,
    }),
    grid({
      ...common,
      id: 'oil cp, Cragoe',
      quantity: 'specific heat of oils, independent formula, K 11.5 to 12.1',
      source: 'Cragoe 1929',
      tolerance: digits(7, 'another formula, which knows no K', 0.05),
      rows: rows.filter((row) => Math.abs(row[1]! - CRAGOE_FACTOR) <= CRAGOE_REACH),
      place: 5,
    }),
  ];
}

function oilDensityChecks(): Check[] {
  const all = fluidCase('petroleum oil: density').rows as [OilClass, ...number[]][];
  const products = [...new Set(all.map(([product]) => product))];
  return products.map((product) =>
    grid({
      id: `oil density, ${product}`,
      quantity: `density from that at 15 °C: ${product}`,
      unit: 'kg/m³',
      source: 'API MPMS 11.1',
      origin: 'recalled',
      tolerance: written(7),
      rows: all.filter(([own]) => own === product).map((row) => row.slice(1) as number[]),
      at: (row) => `${row[0]} kg/m³ at 15 °C, ${row[1]} °C`,
      place: 4,
      ours: (row) => oilDensity(product, row[0]!, row[1]!),
    }),
  );
}

function oilTransportChecks(): Check[] {
  return [
    grid({
      id: 'oil conductivity, Cragoe',
      quantity: 'conductivity of oils',
      unit: 'W/(m·K)',
      source: 'Cragoe 1929',
      origin: 'recalled',
      tolerance: written(7),
      rows: fluidRows('petroleum oil: thermal conductivity'),
      at: (row) => `SG ${row[0]}, ${row[1]} °C`,
      place: 2,
      ours: (row) => oilConductivity(row[0]!, row[1]!),
    }),
    grid({
      id: 'oil viscosity, ASTM D341',
      quantity: 'kinematic viscosity of oils from two points',
      unit: 'mm²/s',
      source: 'ASTM D341',
      tolerance: written(7),
      rows: fluidRows('petroleum oil: kinematic viscosity from two points'),
      at: (row) => `${row[0]} and ${row[1]} mm²/s at 40 and 100 °C, ${row[2]} °C`,
      place: 3,
      ours: (row) => {
        const kinematicViscosities: [number, number] = [row[0]! * 1e-6, row[1]! * 1e-6];
        return oilKinematicViscosity({ temperatures: [40, 100], kinematicViscosities })(row[2]!) * 1e6;
      },
    }),
  ];
}

export function oilChecks(): Check[] {
  return [...oilHeatChecks(), ...oilDensityChecks(), ...oilTransportChecks()];
}
