import ucum from '@lhncbc/ucum-lhc';

/**
 * Kinds of quantity and the SI unit each is kept in. A temperature difference is a kind of its own:
 * 0.5 [degF] of temperature is −17.5 °C, 0.5 [degF] of difference is 0.28 K.
 */
export const SI_UNIT = {
  temperature: 'Cel',
  temperatureDifference: 'K',
  massFlow: 'kg/s',
  volumeFlow: 'm3/s',
  area: 'm2',
  pressure: 'Pa',
  conductance: 'W/(m2.K)',
  foulingResistance: 'm2.K/W',
  power: 'W',
  energy: 'J',
  duration: 's',
  length: 'm',
  specificHeat: 'J/(kg.K)',
  specificEnthalpy: 'J/kg',
  density: 'kg/m3',
  viscosity: 'Pa.s',
  kinematicViscosity: 'm2/s',
  conductivity: 'W/(m.K)',
  fraction: '1',
} as const;

export type Kind = keyof typeof SI_UNIT;

/** value in SI = value · factor + offset. The offset is 0 for all but temperatures. */
export type Conversion = { factor: number; offset: number };

/** What people write in column heads and forms for the UCUM code behind it. */
const SPELLINGS = new Map(
  Object.entries({
    '°C': 'Cel',
    degC: 'Cel',
    C: 'Cel',
    '°F': '[degF]',
    degF: '[degF]',
    F: '[degF]',
    '°R': '[degR]',
    degR: '[degR]',
    gpm: '[gal_us]/min',
    'gal/min': '[gal_us]/min',
    'lb/h': '[lb_av]/h',
    'lb/s': '[lb_av]/s',
    'klb/h': '10*3.[lb_av]/h',
    'ft3/min': '[ft_i]3/min',
    ft2: '[ft_i]2',
    psi: '[psi]',
    inH2O: "[in_i'H2O]",
    mbar: 'mbar',
    'l/s': 'L/s',
    'l/min': 'L/min',
    'l/h': 'L/h',
    kWh: 'kW.h',
    MWh: 'MW.h',
    'W/m2K': 'W/(m2.K)',
    'kW/m2K': 'kW/(m2.K)',
    'm2K/W': 'm2.K/W',
    'kJ/kgK': 'kJ/(kg.K)',
    'J/kgK': 'J/(kg.K)',
    'W/mK': 'W/(m.K)',
    cSt: 'mm2/s',
  }),
);

const ucumTables = ucum.UcumLhcUtils.getInstance();
const conversions = new Map<string, Conversion | null>();

/**
 * How to turn a unit into the SI unit of a kind; null when it is no unit of that kind.
 * Reads UCUM codes and a few common spellings (°C, m³/h, gpm). The library's answers are remembered, so that a
 * column of a million values costs one look-up.
 */
export function conversionToSi(unit: string, kind: Kind): Conversion | null {
  const key = `${kind} ${unit}`;
  const known = conversions.get(key);
  if (known !== undefined) return known;
  const conversion = findConversion(unit, kind);
  conversions.set(key, conversion);
  return conversion;
}

function findConversion(unit: string, kind: Kind): Conversion | null {
  const code = ucumCode(unit, kind);
  if (kind === 'temperature') return temperatureConversion(code);
  const factor = convert(code, 1, SI_UNIT[kind]);
  return factor === null ? null : { factor, offset: 0 };
}

// The library converts through kelvin and leaves 6e-14 behind; exact factors keep 50 °F equal to 10 °C.
const TEMPERATURES = new Map<string, Conversion>(
  Object.entries({
    Cel: { factor: 1, offset: 0 },
    K: { factor: 1, offset: -273.15 },
    '[degF]': { factor: 5 / 9, offset: -160 / 9 },
    '[degR]': { factor: 5 / 9, offset: -273.15 },
  }),
);

function temperatureConversion(code: string): Conversion | null {
  return TEMPERATURES.get(code) ?? null;
}

/**
 * The UCUM code for a unit as written. Away from plain temperatures, degrees Celsius and Fahrenheit mean differences
 * and become K and [degR]: the library refuses `W/(m2.Cel)` and would take 10 [degF] of difference for −12 °C.
 */
export function ucumCode(unit: string, kind: Kind): string {
  const written = unit.trim().replace(/³/g, '3').replace(/²/g, '2').replace(/·/g, '.');
  const code = SPELLINGS.get(written) ?? written;
  if (kind === 'temperature') return code;
  return code
    .replace(/\[degF\]/g, '[degR]')
    .replace(/\bCel\b/g, 'K')
    .replace(/°C/g, 'K')
    .replace(/°F/g, '[degR]');
}

/** What no UCUM code holds (blanks), or what turns into absurd factors (bare zeros, three-digit powers of ten). */
const NO_UCUM_CODE = /\s|(^|[./(])0|10[*^][+-]?\d{3}/;

function convert(from: string, value: number, to: string): number | null {
  if (from === '' || NO_UCUM_CODE.test(from)) return null;
  try {
    const result = ucumTables.convertUnitTo(from, value, to);
    return result.status === 'succeeded' ? result.toVal : null;
  } catch {
    // The library throws on some codes that are names of its own objects, such as "__proto__".
    return null;
  }
}

/** A single value in SI, or null when the unit is not one of that kind. */
export function toSi(value: number, unit: string, kind: Kind): number | null {
  const conversion = conversionToSi(unit, kind);
  return conversion === null ? null : value * conversion.factor + conversion.offset;
}
