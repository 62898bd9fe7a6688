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

/**
 * Spellings of plants and their control systems whose case says nothing, in lower case without blanks. Where case makes
 * another unit of it (mPa and MPa, mbar and Mbar), the spelling is left to UCUM.
 */
const CASELESS_SPELLINGS = new Map(
  Object.entries({
    '°c': 'Cel',
    degc: 'Cel',
    'deg.c': 'Cel',
    degreec: 'Cel',
    degreesc: 'Cel',
    celsius: 'Cel',
    cel: 'Cel',
    '°f': '[degF]',
    degf: '[degF]',
    'deg.f': '[degF]',
    degreef: '[degF]',
    degreesf: '[degF]',
    fahrenheit: '[degF]',
    kelvin: 'K',
    degk: 'K',
    '°k': 'K',
    gpm: '[gal_us]/min',
    usgpm: '[gal_us]/min',
    'gal/min': '[gal_us]/min',
    'gal/h': '[gal_us]/h',
    'gal/hr': '[gal_us]/h',
    'm3/h': 'm3/h',
    'm3/hr': 'm3/h',
    cmh: 'm3/h',
    'm3/s': 'm3/s',
    'm3/min': 'm3/min',
    'm3/d': 'm3/d',
    'm3/day': 'm3/d',
    'l/s': 'L/s',
    lps: 'L/s',
    'l/sec': 'L/s',
    'l/min': 'L/min',
    lpm: 'L/min',
    'l/h': 'L/h',
    'l/hr': 'L/h',
    lph: 'L/h',
    'kg/s': 'kg/s',
    'kg/sec': 'kg/s',
    'kg/h': 'kg/h',
    'kg/hr': 'kg/h',
    kgph: 'kg/h',
    'kg/min': 'kg/min',
    't/h': 't/h',
    't/hr': 't/h',
    tph: 't/h',
    'te/h': 't/h',
    't/d': 't/d',
    't/day': 't/d',
    'lb/h': '[lb_av]/h',
    'lb/hr': '[lb_av]/h',
    'lbs/h': '[lb_av]/h',
    'lbs/hr': '[lb_av]/h',
    'lbm/h': '[lb_av]/h',
    'lbm/hr': '[lb_av]/h',
    pph: '[lb_av]/h',
    'lb/min': '[lb_av]/min',
    'klb/h': '10*3.[lb_av]/h',
    'klb/hr': '10*3.[lb_av]/h',
    kpph: '10*3.[lb_av]/h',
    bpd: '[bbl_us]/d',
    'bbl/d': '[bbl_us]/d',
    'bbl/day': '[bbl_us]/d',
    'bbl/h': '[bbl_us]/h',
    'ft3/h': '[ft_i]3/h',
    'ft3/hr': '[ft_i]3/h',
    'ft3/s': '[ft_i]3/s',
    bar: 'bar',
    dbar: 'bar',
    bard: 'bar',
    'bar(d)': 'bar',
    kpa: 'kPa',
    hpa: 'hPa',
    kpad: 'kPa',
    psi: '[psi]',
    psid: '[psi]',
    'psi(d)': '[psi]',
    'lb/in2': '[psi]',
    inh2o: "[in_i'H2O]",
    inwc: "[in_i'H2O]",
    inwg: "[in_i'H2O]",
    '"h2o': "[in_i'H2O]",
    '"wc': "[in_i'H2O]",
    mmh2o: 'mm[H2O]',
    mmwc: 'mm[H2O]',
    mmwg: 'mm[H2O]',
    mh2o: 'm[H2O]',
    mwc: 'm[H2O]',
    inhg: "[in_i'Hg]",
    mmhg: 'mm[Hg]',
    torr: 'mm[Hg]',
    atm: 'atm',
    'kgf/cm2': 'kgf/cm2',
    'kp/cm2': 'kgf/cm2',
    'kg/cm2': 'kgf/cm2',
    'kg/cm2(d)': 'kgf/cm2',
    at: 'att',
  }),
);

const ucumTables = ucum.UcumLhcUtils.getInstance();
const conversions = new Map<string, Conversion | null>();
const MAX_REMEMBERED = 20_000;
/** No unit anybody writes is longer; the library takes a minute to refuse 100,000 digits [characters]. */
const LONGEST_UNIT = 60;

/**
 * How to turn a unit into the SI unit of a kind; null when it is no unit of that kind.
 * Reads UCUM codes and a few common spellings (°C, m³/h, gpm). The library's answers are remembered, so that a
 * column of a million values costs one look-up.
 */
export function conversionToSi(unit: string, kind: Kind): Conversion | null {
  if (unit.length > LONGEST_UNIT) return null;
  const key = `${kind} ${unit}`;
  const known = conversions.get(key);
  if (known !== undefined) return known;
  const conversion = findConversion(unit, kind);
  // Files of strangers ask for ever new ones.
  if (conversions.size >= MAX_REMEMBERED) conversions.clear();
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
  const written = unit
    .trim()
    .replace(/³/g, '3')
    .replace(/²/g, '2')
    .replace(/·/g, '.')
    .replace(/(?<=\b(?:[cm]?m|ft|in))\^(?=[23])/g, '');
  const code = SPELLINGS.get(written) ?? CASELESS_SPELLINGS.get(written.toLowerCase()) ?? written;
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
