import { BTU, FAHRENHEIT_DEGREE, FAHRENHEIT_ZERO, FOOT, GALLON, HOUR, MINUTE, POUND, PSI } from './factors';
import type { UnitSystem } from './unit-system';

/** How a kind of quantity is shown: SI = shown · factor + offset. `ucum` is the code forms and files state. */
export type DisplayUnit = { label: string; ucum: string; factor: number; offset: number };

const unit = (label: string, ucum: string, factor: number, offset = 0): DisplayUnit => ({
  label,
  ucum,
  factor,
  offset,
});

const FT2 = FOOT ** 2;
const FT3 = FOOT ** 3;
const BTU_PER_LB_F = BTU / (POUND * FAHRENHEIT_DEGREE);

const SAME = {
  fraction: unit('%', '%', 0.01),
  number: unit('', '1', 1),
  days: unit('d', 'd', 86_400),
  money: unit('', '1', 1),
};

/** One unit per kind, or several from small to large: the last one whose `factor · SWITCH_AT` the figure reaches is shown. */
const UNITS = {
  si: {
    ...SAME,
    temperature: unit('°C', 'Cel', 1),
    temperatureDifference: unit('K', 'K', 1),
    massFlow: unit('kg/s', 'kg/s', 1),
    volumeFlow: unit('m³/h', 'm3/h', 1 / HOUR),
    power: [unit('kW', 'kW', 1e3), unit('MW', 'MW', 1e6)],
    energy: unit('MWh', 'MW.h', 1e6 * HOUR),
    conductance: unit('W/(m²·K)', 'W/(m2.K)', 1),
    totalConductance: unit('kW/K', 'kW/K', 1e3),
    foulingResistance: unit('m²·K/kW', 'm2.K/kW', 1e-3),
    foulingRate: unit('m²·K/kW per day', 'm2.K/(kW.d)', 1e-3),
    area: unit('m²', 'm2', 1),
    length: unit('mm', 'mm', 1e-3),
    velocity: unit('m/s', 'm/s', 1),
    pressure: unit('kPa', 'kPa', 1e3),
    specificHeat: unit('kJ/(kg·K)', 'kJ/(kg.K)', 1e3),
    enthalpy: unit('kJ/kg', 'kJ/kg', 1e3),
    density: unit('kg/m³', 'kg/m3', 1),
    viscosity: unit('mPa·s', 'mPa.s', 1e-3),
    conductivity: unit('W/(m·K)', 'W/(m.K)', 1),
    mass: unit('kg', 'kg', 1),
  },
  us: {
    ...SAME,
    temperature: unit('°F', '[degF]', FAHRENHEIT_DEGREE, FAHRENHEIT_ZERO),
    temperatureDifference: unit('°F', '[degF]', FAHRENHEIT_DEGREE),
    massFlow: [
      unit('lb/h', '[lb_av]/h', POUND / HOUR),
      unit('klb/h', '10*3.[lb_av]/h', (1e3 * POUND) / HOUR),
    ],
    volumeFlow: unit('gal/min', '[gal_us]/min', GALLON / MINUTE),
    power: [
      unit('kBtu/h', '10*3.[Btu_IT]/h', (1e3 * BTU) / HOUR),
      unit('MMBtu/h', '10*6.[Btu_IT]/h', (1e6 * BTU) / HOUR),
    ],
    energy: unit('MMBtu', '10*6.[Btu_IT]', 1e6 * BTU),
    conductance: unit(
      'Btu/(h·ft²·°F)',
      '[Btu_IT]/(h.[ft_i]2.[degF])',
      BTU / (HOUR * FT2 * FAHRENHEIT_DEGREE),
    ),
    totalConductance: unit(
      'kBtu/(h·°F)',
      '10*3.[Btu_IT]/(h.[degF])',
      (1e3 * BTU) / (HOUR * FAHRENHEIT_DEGREE),
    ),
    foulingResistance: unit(
      '10⁻³ h·ft²·°F/Btu',
      '10*-3.h.[ft_i]2.[degF]/[Btu_IT]',
      (1e-3 * HOUR * FT2 * FAHRENHEIT_DEGREE) / BTU,
    ),
    foulingRate: unit(
      '10⁻³ h·ft²·°F/Btu per day',
      '10*-3.h.[ft_i]2.[degF]/([Btu_IT].d)',
      (1e-3 * HOUR * FT2 * FAHRENHEIT_DEGREE) / BTU,
    ),
    area: unit('ft²', '[ft_i]2', FT2),
    length: unit('in', '[in_i]', FOOT / 12),
    velocity: unit('ft/s', '[ft_i]/s', FOOT),
    pressure: unit('psi', '[psi]', PSI),
    specificHeat: unit('Btu/(lb·°F)', '[Btu_IT]/([lb_av].[degF])', BTU_PER_LB_F),
    enthalpy: unit('Btu/lb', '[Btu_IT]/[lb_av]', BTU / POUND),
    density: unit('lb/ft³', '[lb_av]/[ft_i]3', POUND / FT3),
    viscosity: unit('cP', 'cP', 1e-3),
    conductivity: unit(
      'Btu/(h·ft·°F)',
      '[Btu_IT]/(h.[ft_i].[degF])',
      BTU / (HOUR * FOOT * FAHRENHEIT_DEGREE),
    ),
    mass: unit('lb', '[lb_av]', POUND),
  },
} as const satisfies Record<UnitSystem, Record<string, DisplayUnit | readonly DisplayUnit[]>>;

/** Kinds of quantity a screen can show. Rates of fouling are per day, their SI base is m²·K/W per day. */
export type DisplayKind = keyof (typeof UNITS)['si'];
export const DISPLAY_KINDS = Object.keys(UNITS.si) as DisplayKind[];

/** A larger unit takes over once the figure is at least this many of it [-]; our choice, so that 9,800 kW stays in kW. */
const SWITCH_AT = 10;

/**
 * The unit a kind is shown in. `largest` [SI] picks between sizes (kW or MW); for a column or chart pass its largest
 * value, so that all its figures share one unit.
 */
export function displayUnit(kind: DisplayKind, system: UnitSystem, largest?: number | null): DisplayUnit {
  const choice: DisplayUnit | readonly DisplayUnit[] = UNITS[system][kind];
  if ('label' in choice) return choice;
  const size = Math.abs(largest ?? 0);
  let chosen = choice[0]!;
  for (const candidate of choice) if (size >= candidate.factor * SWITCH_AT) chosen = candidate;
  return chosen;
}

/** An SI value as number in the shown unit. */
export function toDisplay(value: number, shown: DisplayUnit): number {
  return (value - shown.offset) / shown.factor;
}

/** A number in the shown unit as SI. */
export function fromDisplay(value: number, shown: DisplayUnit): number {
  return value * shown.factor + shown.offset;
}
