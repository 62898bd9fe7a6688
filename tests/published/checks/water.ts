import { helmholtzDensity, helmholtzSpecificHeat } from '@/lib/core/fluids/helmholtz';
import { IAPWS_95 } from '@/lib/core/fluids/iapws95-table';
import { liquidWaterState } from '@/lib/core/fluids/liquid-water';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { makeWater } from '@/lib/core/fluids/water';
import { type Check, single } from './check';
import { steamChecks } from './steam';
import { asWritten, digits } from './tolerance';
import { agreement, COMPUTED, type Column, cases, TABULATED } from './water-data';
import { waterReleaseChecks } from './water-releases';

const LIQUID: (Column & {
  scale: number;
  name: 'density' | 'specificHeat' | 'enthalpy' | 'viscosity' | 'conductivity';
})[] = [
  { name: 'density', quantity: 'density', unit: 'kg/m³', place: 2, scale: 1, source: 'IAPWS R7-97' },
  {
    name: 'specificHeat',
    quantity: 'specific heat',
    unit: 'kJ/(kg·K)',
    place: 3,
    scale: 1e-3,
    source: 'IAPWS R7-97',
  },
  { name: 'enthalpy', quantity: 'enthalpy', unit: 'kJ/kg', place: 4, scale: 1e-3, source: 'IAPWS R7-97' },
  { name: 'viscosity', quantity: 'viscosity', unit: 'Pa·s', place: 5, scale: 1, source: 'IAPWS R12-08' },
  {
    name: 'conductivity',
    quantity: 'conductivity, no critical enhancement',
    unit: 'W/(m·K)',
    place: 6,
    scale: 1,
    source: 'IAPWS R15-11',
  },
];

/** 97 states of the liquid: by the formulas, and by the tables that readings are evaluated with. */
function liquidGrid(): Check[] {
  const grid = cases.liquid_grid.rows;
  const pressures = new Set(grid.map(([pressure]) => pressure!));
  const fluids = (make: (pressure: number) => ReturnType<typeof makeWater>) =>
    new Map([...pressures].map((pressure) => [pressure, make(pressure * 1e6)]));
  const routes = [
    { words: 'by formula', fluids: fluids(makeWater), tolerance: COMPUTED },
    {
      words: 'by table',
      fluids: fluids((pressure) => makeFluid({ kind: 'water', pressure })),
      tolerance: TABULATED,
    },
  ];
  return routes.flatMap((route) =>
    LIQUID.map(({ name, place, scale, ...column }) => ({
      id: `liquid water, ${route.words}`,
      quantity: `${column.quantity}, 0.1 to 2 MPa`,
      unit: column.unit,
      source: column.source,
      origin: 'computed' as const,
      tolerance: route.tolerance,
      rows: grid.map((row) => ({
        at: `${row[1]} °C, ${row[0]} MPa`,
        theirs: row[place]!,
        ours: route.fluids.get(row[0]!)![name]!(row[1]!) * scale,
      })),
    })),
  );
}

/** The scientific formulation, which carries the properties of sea water and shows how far the industrial one is from it. */
function scientificFormulation(): Check[] {
  const printed = [
    [0.0992418352, 996.556],
    [20.0022515, 1005.308],
    [700.004704, 1188.202],
  ] as const;
  const densities = printed.map(([pressure, density]) =>
    single({
      id: `IAPWS R6-95 table 7, 300 K, ${pressure} MPa: rho`,
      quantity: 'density from pressure',
      unit: 'kg/m³',
      source: 'IAPWS R6-95',
      origin: 'printed',
      tolerance: digits(7, 'as the release prints'),
      at: `300 K, ${pressure} MPa`,
      theirs: density,
      ours: helmholtzDensity(IAPWS_95, { temperature: 26.85, pressure: pressure * 1e6 }, 1000),
    }),
  );
  const scientific = ({ at_t_C, at_p_MPa }: { at_t_C: number; at_p_MPa: number }) => {
    const density = helmholtzDensity(IAPWS_95, { temperature: at_t_C, pressure: at_p_MPa * 1e6 }, 1000);
    return { rho: density, cp: helmholtzSpecificHeat(IAPWS_95, at_t_C, density) };
  };
  const distances = (['rho', 'cp'] as const).map((name) => {
    const found = agreement[name];
    const state = liquidWaterState(found.at_t_C, found.at_p_MPa * 1e6);
    const industrial = { rho: 1 / state.volume, cp: state.specificHeat };
    return single({
      id: `distance of IF97 from IAPWS-95: ${name}`,
      quantity: `largest distance of the industrial from the scientific formulation, ${name === 'rho' ? 'density' : 'specific heat'}`,
      unit: 'relative',
      source: 'IAPWS R6-95',
      origin: 'computed',
      tolerance: asWritten(5e-3, 'three digits given'),
      at: `${found.at_t_C} °C, ${found.at_p_MPa} MPa`,
      theirs: found.largest_relative_difference,
      ours: Math.abs(industrial[name] / scientific(found)[name] - 1),
    });
  });
  return [...densities, ...distances];
}

export function waterChecks(): Check[] {
  return [...waterReleaseChecks(), ...scientificFormulation(), ...liquidGrid(), ...steamChecks()];
}
