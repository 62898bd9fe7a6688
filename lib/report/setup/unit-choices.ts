import { ucumInWords } from '@/lib/report/format/ucum-words';
import type { UnitSystem } from '@/lib/report/format/unit-system';

/** Kinds of quantity a datasheet form asks for; `flow` is mass or volume, `oilViscosity` kinematic or dynamic. */
export type FormKind = keyof typeof CHOICES;

/** UCUM codes offered for each kind: metric ones, then US customary ones; the first of each is that system's own. */
const CHOICES = {
  temperature: { si: ['Cel', 'K'], us: ['[degF]'] },
  temperatureDifference: { si: ['K'], us: ['[degF]'] },
  flow: { si: ['kg/s', 'kg/h', 't/h', 'm3/h', 'L/s'], us: ['[gal_us]/min', '[lb_av]/h'] },
  area: { si: ['m2'], us: ['[ft_i]2'] },
  length: { si: ['mm', 'cm', 'm'], us: ['[in_i]'] },
  pressure: { si: ['kPa', 'bar', 'MPa'], us: ['[psi]'] },
  conductance: { si: ['W/(m2.K)', 'kW/(m2.K)'], us: ['[Btu_IT]/(h.[ft_i]2.[degF])'] },
  foulingResistance: { si: ['m2.K/W', 'm2.K/kW'], us: ['h.[ft_i]2.[degF]/[Btu_IT]'] },
  specificHeat: { si: ['kJ/(kg.K)', 'J/(kg.K)'], us: ['[Btu_IT]/([lb_av].[degF])'] },
  specificEnthalpy: { si: ['kJ/kg', 'J/kg'], us: ['[Btu_IT]/[lb_av]'] },
  density: { si: ['kg/m3'], us: ['[lb_av]/[ft_i]3'] },
  viscosity: { si: ['mPa.s', 'Pa.s'], us: ['cP'] },
  oilViscosity: { si: ['mm2/s', 'mPa.s'], us: ['cSt', 'cP'] },
  conductivity: { si: ['W/(m.K)'], us: ['[Btu_IT]/(h.[ft_i].[degF])'] },
  duration: { si: ['h', 'd'], us: [] },
  energy: { si: ['kW.h', 'MW.h', 'GJ', 'MJ'], us: ['10*6.[Btu_IT]'] },
} as const satisfies Record<string, Record<UnitSystem, readonly string[]>>;

export const FORM_KINDS = Object.keys(CHOICES) as FormKind[];

/** The unit a form begins with. */
export function firstUnit(kind: FormKind, system: UnitSystem): string {
  const { si, us } = CHOICES[kind];
  return (system === 'us' ? us[0] : undefined) ?? si[0];
}

const OWN_WORDS: Record<string, string> = { '10*6.[Btu_IT]': 'MMBtu', '%': '%' };

/** What a form offers for a kind; a unit that a datasheet states and nobody offers is offered too. */
export function unitOptions(kind: FormKind, stated: string): { value: string; label: string }[] {
  const offered: string[] = [...CHOICES[kind].si, ...CHOICES[kind].us];
  const all = stated === '' || offered.includes(stated) ? offered : [...offered, stated];
  return all.map((value) => ({ value, label: OWN_WORDS[value] ?? ucumInWords(value) }));
}
