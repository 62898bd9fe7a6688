import type { Kind } from '../ucum';
import { conversionToSi } from '../ucum';
import type { LeafKind } from './schema-leaves';
import { SHARE, type SheetColumn } from './sheet-column';

type Offer = { si: readonly (readonly [string, string])[]; us: readonly (readonly [string, string])[] };

/** Units of measure offered for each kind: UCUM code, and as people write it. The first of each system is its own. */
const OFFERS: Partial<Record<Kind, Offer>> = {
  temperature: {
    si: [
      ['Cel', '°C'],
      ['K', 'K'],
    ],
    us: [['[degF]', '°F']],
  },
  temperatureDifference: { si: [['K', 'K']], us: [['[degF]', '°F']] },
  volumeFlow: {
    si: [
      ['m3/h', 'm³/h'],
      ['L/s', 'L/s'],
    ],
    us: [['[gal_us]/min', 'gal/min']],
  },
  massFlow: {
    si: [
      ['kg/s', 'kg/s'],
      ['kg/h', 'kg/h'],
      ['t/h', 't/h'],
    ],
    us: [['[lb_av]/h', 'lb/h']],
  },
  area: { si: [['m2', 'm²']], us: [['[ft_i]2', 'ft²']] },
  length: {
    si: [
      ['mm', 'mm'],
      ['cm', 'cm'],
      ['m', 'm'],
    ],
    us: [['[in_i]', 'in']],
  },
  pressure: {
    si: [
      ['bar', 'bar'],
      ['kPa', 'kPa'],
      ['MPa', 'MPa'],
    ],
    us: [['[psi]', 'psi']],
  },
  conductance: {
    si: [
      ['W/(m2.K)', 'W/(m²·K)'],
      ['kW/(m2.K)', 'kW/(m²·K)'],
    ],
    us: [['[Btu_IT]/(h.[ft_i]2.[degF])', 'Btu/(h·ft²·°F)']],
  },
  foulingResistance: {
    si: [
      ['m2.K/W', 'm²·K/W'],
      ['m2.K/kW', 'm²·K/kW'],
    ],
    us: [['h.[ft_i]2.[degF]/[Btu_IT]', 'h·ft²·°F/Btu']],
  },
  specificHeat: {
    si: [
      ['kJ/(kg.K)', 'kJ/(kg·K)'],
      ['J/(kg.K)', 'J/(kg·K)'],
    ],
    us: [['[Btu_IT]/([lb_av].[degF])', 'Btu/(lb·°F)']],
  },
  specificEnthalpy: {
    si: [
      ['kJ/kg', 'kJ/kg'],
      ['J/kg', 'J/kg'],
    ],
    us: [['[Btu_IT]/[lb_av]', 'Btu/lb']],
  },
  density: { si: [['kg/m3', 'kg/m³']], us: [['[lb_av]/[ft_i]3', 'lb/ft³']] },
  kinematicViscosity: { si: [['mm2/s', 'mm²/s']], us: [['cSt', 'cSt']] },
  viscosity: {
    si: [
      ['mPa.s', 'mPa·s'],
      ['Pa.s', 'Pa·s'],
    ],
    us: [['cP', 'cP']],
  },
  conductivity: { si: [['W/(m.K)', 'W/(m·K)']], us: [['[Btu_IT]/(h.[ft_i].[degF])', 'Btu/(h·ft·°F)']] },
  duration: {
    si: [
      ['h', 'h'],
      ['d', 'd'],
    ],
    us: [],
  },
  energy: {
    si: [
      ['kW.h', 'kWh'],
      ['MW.h', 'MWh'],
      ['GJ', 'GJ'],
      ['MJ', 'MJ'],
    ],
    us: [['10*6.[Btu_IT]', 'MMBtu']],
  },
};

/** Kinds as a column measures them: a flow is offered by volume before mass, an oil's viscosity kinematic before dynamic. */
const FIRST: Kind[] = ['volumeFlow', 'kinematicViscosity'];

function kindsOf(kind: LeafKind): Kind[] {
  if (kind.by === 'priced') return ['energy'];
  if (kind.by !== 'quantity') return [];
  return [...kind.kinds].sort((a, b) => Number(FIRST.includes(b)) - Number(FIRST.includes(a)));
}

function offersOf(kind: LeafKind): Offer[] {
  return kindsOf(kind).flatMap((name) => OFFERS[name] ?? []);
}

/** What a sheet offers for a column, as people write it. */
export function offeredUnits(kind: LeafKind): string[] {
  const offers = offersOf(kind);
  const all = [...offers.flatMap(({ si }) => si), ...offers.flatMap(({ us }) => us)];
  const words = all.map(([code]) => unitInWords(kind, code));
  return kind.by === 'quantity' && kind.orShare ? [...words, SHARE] : words;
}

/** Unit of measure a column begins with; null for what is not measured. */
export function firstUnits(kind: LeafKind): SheetColumn['unit'] {
  const [offer] = offersOf(kind);
  if (offer === undefined) return null;
  const si = offer.si[0]![0];
  return { si, us: offer.us[0]?.[0] ?? si };
}

/** A unit as a sheet shows it: as people write it, where reading that gives the same code; else the code. */
export function unitInWords(kind: LeafKind, code: string): string {
  const words = offersOf(kind)
    .flatMap(({ si, us }) => [...si, ...us])
    .find(([offered]) => offered === code)?.[1];
  if (words === undefined || unitNamed(kind, words) !== code) return code;
  return kind.by === 'priced' ? `${PRICED_PREFIX[kind.what]}${words}` : words;
}

const PRICED_PREFIX = { amount: 'per ', kg: 'kg per ' };
const PER = { amount: /^(?:per\b\s*|\/\s*)/i, kg: /^kg\s*(?:per\b\s*|\/\s*)/i };

/** The UCUM code of a unit as somebody wrote it, `SHARE` for a plain share; null where it does not measure the column. */
export function unitNamed(kind: LeafKind, written: string): string | null {
  const text = kind.by === 'priced' ? written.trim().replace(PER[kind.what], '') : written.trim();
  const plain = plainUnit(text);
  if (kind.by === 'quantity' && kind.orShare && (plain === SHARE || plain === '1')) return SHARE;
  const offered = offersOf(kind).flatMap(({ si, us }) => [...si, ...us]);
  const like = (same: (name: string) => boolean) => offered.find((pair) => pair.some(same))?.[0];
  const exact = like((name) => name === text) ?? like((name) => bareUnit(name) === bareUnit(text));
  if (exact !== undefined) return exact;
  if (kindsOf(kind).some((name) => conversionToSi(text, name) !== null)) return text;
  // Upper and lower case only where nothing else is meant: mPa and MPa are both pressures.
  return like((name) => plainUnit(name) === plain) ?? null;
}

function plainUnit(text: string): string {
  return bareUnit(text).toLowerCase();
}

function bareUnit(text: string): string {
  return text
    .replace(/[\s^·.*()]/g, '')
    .replace(/³/g, '3')
    .replace(/²/g, '2')
    .replace(/deg(?:rees?)?/, '°')
    .replace(/º/g, '°');
}
