import type { Fluid } from '@/lib/core/fluids/fluid';
import { glycolFreezingPoint, makeGlycol } from '@/lib/core/fluids/glycol';
import { ETHYLENE_GLYCOL, PROPYLENE_GLYCOL } from '@/lib/core/fluids/glycol-tables';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import {
  seawaterConductivity,
  seawaterDensity,
  seawaterSpecificHeat,
  seawaterViscosity,
} from '@/lib/core/fluids/seawater';
import { airChecks } from './air';
import { type Check, single } from './check';
import { fluidCase, fluidRows, grid, SAME_FORMULA, written } from './fluid-data';
import { oilChecks } from './oils';
import { digits, relative } from './tolerance';

const PROPERTIES = [
  { name: 'density', quantity: 'density', unit: 'kg/m³' },
  { name: 'specificHeat', quantity: 'specific heat', unit: 'J/(kg·K)' },
  { name: 'viscosity', quantity: 'viscosity', unit: 'Pa·s' },
  { name: 'conductivity', quantity: 'conductivity', unit: 'W/(m·K)' },
] as const;

function byFraction(fractions: Set<number>, make: (massFraction: number) => Fluid): Map<number, Fluid> {
  return new Map([...fractions].map((fraction) => [fraction, make(fraction)]));
}

/** Aqueous glycols by mass fraction: by formula, and by the tables that readings are evaluated with. */
function glycolChecks(kind: 'ethylene-glycol' | 'propylene-glycol'): Check[] {
  const table = kind === 'ethylene-glycol' ? ETHYLENE_GLYCOL : PROPYLENE_GLYCOL;
  const rows = fluidRows(kind);
  const fractions = new Set(rows.map(([fraction]) => fraction!));
  const routes = [
    { words: 'by formula', fluids: byFraction(fractions, (x) => makeGlycol(table, x)) },
    { words: 'by table', fluids: byFraction(fractions, (massFraction) => makeFluid({ kind, massFraction })) },
  ];
  const properties = routes.flatMap(({ words, fluids }) =>
    PROPERTIES.map(({ name, quantity, unit }, i) =>
      grid({
        id: `${kind}, ${words}`,
        quantity: `${quantity}, 20 to 60 %`,
        unit,
        source: 'Melinder 2010',
        tolerance: SAME_FORMULA,
        rows,
        at: ([fraction, t]) => `${fraction! * 100} %, ${t} °C`,
        place: 2 + i,
        ours: ([fraction, t]) => fluids.get(fraction!)![name]!(t!),
      }),
    ),
  );
  const freezing = grid({
    id: kind,
    quantity: 'freezing point, 10 to 60 %',
    unit: '°C',
    source: 'Melinder 2010',
    tolerance: written(5),
    rows: fluidCase(kind).freezing_point!.rows,
    at: ([fraction]) => `${fraction! * 100} %`,
    place: 1,
    ours: ([fraction]) => glycolFreezingPoint(table, fraction!),
  });
  return [...properties, freezing];
}

function seawaterChecks(): Check[] {
  const check = fluidCase('seawater').check_value_R13_08_table8!;
  const [t, salinity] = [check.T_K! - 273.15, check.S_kg_kg!];
  const release = { source: 'IAPWS R13-08', origin: 'printed', at: `${t} °C, ${salinity} kg/kg` } as const;
  const rows = fluidRows('seawater');
  const columns = [
    { source: 'IAPWS R13-08', tolerance: written(8), ours: seawaterDensity },
    { source: 'IAPWS R13-08', tolerance: written(8), ours: seawaterSpecificHeat },
    { source: 'Sharqawy 2010', tolerance: written(6), ours: seawaterViscosity },
    { source: 'Sharqawy 2010', tolerance: written(6), ours: seawaterConductivity },
  ] as const;
  return [
    single({
      ...release,
      id: 'IAPWS R13-08 table 8: rho',
      quantity: 'density of sea water',
      unit: 'kg/m³',
      tolerance: digits(8, 'as the release prints'),
      theirs: check.rho_kg_m3!,
      ours: seawaterDensity(t, salinity),
    }),
    single({
      ...release,
      id: 'IAPWS R13-08 table 8: cp',
      quantity: 'specific heat of sea water',
      unit: 'kJ/(kg·K)',
      tolerance: digits(9, 'as the release prints'),
      theirs: check.cp_kJ_kgK!,
      ours: seawaterSpecificHeat(t, salinity) / 1e3,
    }),
    ...columns.map(({ source, tolerance, ours }, i) =>
      grid({
        id: 'seawater',
        quantity: `${PROPERTIES[i]!.quantity}, 10 to 40 g/kg`,
        unit: PROPERTIES[i]!.unit,
        source,
        tolerance,
        rows,
        at: (row) => `${row[0]} g/kg, ${row[1]} °C`,
        place: 2 + i,
        ours: (row) => ours(row[1]!, row[0]! / 1e3),
      }),
    ),
  ];
}

export type MilkRow = [
  product: string,
  t: number,
  density: number,
  specificHeat: number,
  conductivity: number,
];

/** A food typed in as a table over temperature. */
export function milkFluid(name: string, points: MilkRow[]): Fluid {
  return makeFluid({
    kind: 'custom',
    name,
    properties: {
      temperatures: points.map((row) => row[1]),
      density: points.map((row) => row[2]),
      specificHeat: points.map((row) => row[3]),
      conductivity: points.map((row) => row[4]),
      viscosity: null,
    },
  });
}

/** The rows of the milk case by product. */
export function milkRows(product: string): MilkRow[] {
  return (fluidCase('milk (typical composition)').rows as MilkRow[]).filter(([own]) => own === product);
}

/** The point of the table that is left out and asked for [°C]. */
const LEFT_OUT = 40;

function milkChecks(): Check[] {
  return ['whole milk', 'skimmed milk', 'cream 40 %'].map((product) => {
    const points = milkRows(product);
    const fluid = milkFluid(
      product,
      points.filter(([, t]) => t !== LEFT_OUT),
    );
    const [, , ...values] = points.find(([, t]) => t === LEFT_OUT)!;
    return {
      id: `${product} as a table`,
      quantity: `density, specific heat and conductivity of ${product} between the points of a table`,
      unit: 'kg/m³, J/(kg·K), W/(m·K)',
      source: 'Choi & Okos 1986',
      origin: 'computed',
      tolerance: relative(5e-3, 'straight lines over 40 K'),
      rows: (['density', 'specificHeat', 'conductivity'] as const).map((name, i) => ({
        at: `${name}, ${LEFT_OUT} °C`,
        theirs: values[i]!,
        ours: fluid[name]!(LEFT_OUT),
      })),
    };
  });
}

export function fluidChecks(): Check[] {
  return [
    ...glycolChecks('ethylene-glycol'),
    ...glycolChecks('propylene-glycol'),
    ...seawaterChecks(),
    ...oilChecks(),
    ...airChecks(),
    ...milkChecks(),
  ];
}
