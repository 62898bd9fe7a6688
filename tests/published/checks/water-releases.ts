import { liquidWaterState, liquidWaterTemperature } from '@/lib/core/fluids/liquid-water';
import { saturationPressure, saturationTemperature } from '@/lib/core/fluids/saturation-line';
import { waterConductivity, waterViscosity } from '@/lib/core/fluids/water-transport';
import { type Check, single } from './check';
import type { SourceName } from './sources';
import { digits } from './tolerance';
import { cases, type Numbers } from './water-data';

const PRINTED = digits(9, 'as the release prints');
const celsius = (kelvin: number) => kelvin - 273.15;

type Release = {
  key: string;
  source: SourceName;
  table: string;
  quantities: Record<string, { quantity: string; unit: string; ours: (row: Numbers) => number }>;
};

const region1 = (row: Numbers) => liquidWaterState(celsius(row.T_K!), row.p_MPa! * 1e6);

const RELEASES: Release[] = [
  {
    key: 'R7-97_table5_region1',
    source: 'IAPWS R7-97',
    table: 'table 5',
    quantities: {
      v_m3_kg: { quantity: 'specific volume', unit: 'm³/kg', ours: (row) => region1(row).volume },
      h_kJ_kg: { quantity: 'enthalpy', unit: 'kJ/kg', ours: (row) => region1(row).enthalpy / 1e3 },
      u_kJ_kg: {
        quantity: 'internal energy',
        unit: 'kJ/kg',
        ours: (row) => region1(row).internalEnergy / 1e3,
      },
      s_kJ_kgK: { quantity: 'entropy', unit: 'kJ/(kg·K)', ours: (row) => region1(row).entropy / 1e3 },
      cp_kJ_kgK: {
        quantity: 'specific heat',
        unit: 'kJ/(kg·K)',
        ours: (row) => region1(row).specificHeat / 1e3,
      },
      w_m_s: { quantity: 'speed of sound', unit: 'm/s', ours: (row) => region1(row).soundSpeed },
    },
  },
  {
    key: 'R7-97_table7_backward_T_of_p_h',
    source: 'IAPWS R7-97',
    table: 'table 7',
    quantities: {
      T_K: {
        quantity: 'temperature from pressure and enthalpy',
        unit: 'K',
        ours: (row) => liquidWaterTemperature(row.p_MPa! * 1e6, row.h_kJ_kg! * 1e3) + 273.15,
      },
    },
  },
  {
    key: 'R7-97_table35_saturation_pressure',
    source: 'IAPWS R7-97',
    table: 'table 35',
    quantities: {
      p_MPa: {
        quantity: 'saturation pressure',
        unit: 'MPa',
        ours: (row) => saturationPressure(celsius(row.T_K!)) / 1e6,
      },
    },
  },
  {
    key: 'R7-97_table36_saturation_temperature',
    source: 'IAPWS R7-97',
    table: 'table 36',
    quantities: {
      T_K: {
        quantity: 'saturation temperature',
        unit: 'K',
        ours: (row) => saturationTemperature(row.p_MPa! * 1e6) + 273.15,
      },
    },
  },
  {
    key: 'R12-08_table4_viscosity_without_critical_enhancement',
    source: 'IAPWS R12-08',
    table: 'table 4',
    quantities: {
      mu_uPa_s: {
        quantity: 'viscosity',
        unit: 'µPa·s',
        ours: (row) => waterViscosity(celsius(row.T_K!), row.rho_kg_m3!) * 1e6,
      },
    },
  },
  {
    key: 'R15-11_table4_conductivity_without_critical_enhancement',
    source: 'IAPWS R15-11',
    table: 'table 4',
    quantities: {
      k_mW_mK: {
        quantity: 'conductivity, no critical enhancement',
        unit: 'mW/(m·K)',
        ours: (row) => waterConductivity(celsius(row.T_K!), row.rho_kg_m3!) * 1e3,
      },
    },
  },
];

const STATE_WORDS: Record<string, string> = { T_K: 'K', p_MPa: 'MPa', h_kJ_kg: 'kJ/kg', rho_kg_m3: 'kg/m³' };

/** The state of a row: its keys that are not asked for. */
function stateOf(row: Numbers, asked: string[]): string {
  return Object.entries(row)
    .filter(([key]) => !asked.includes(key))
    .map(([key, value]) => `${value} ${STATE_WORDS[key]}`)
    .join(', ');
}

function releaseChecks({ key, source, table, quantities }: Release): Check[] {
  return cases[key]!.flatMap((row) =>
    Object.entries(quantities).map(([name, { quantity, unit, ours }]) => {
      const state = stateOf(row, Object.keys(quantities));
      // The file has eight digits of the smallest viscosities: the release prints six decimals.
      const tolerance = name === 'mu_uPa_s' ? digits(8, 'as the release prints') : PRINTED;
      return single({
        id: `${source} ${table}, ${state}: ${name.split('_')[0]}`,
        quantity,
        unit,
        source,
        origin: 'recalled',
        tolerance,
        at: state,
        theirs: row[name]!,
        ours: ours(row),
      });
    }),
  );
}

/** Every check value of the releases on water and on its transport properties. */
export function waterReleaseChecks(): Check[] {
  return RELEASES.flatMap(releaseChecks);
}
