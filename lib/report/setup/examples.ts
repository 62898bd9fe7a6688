import type { UnitSystem } from '@/lib/report/format/unit-system';

/** Example figures of one small unit, in each system: the hints of the form. */
const EXAMPLES = {
  area: { si: '42 m²', us: '450 ft²' },
  channelGap: { si: '2.8 mm', us: '0.11 in' },
  channelWidth: { si: '420 mm', us: '16.5 in' },
  plateArea: { si: '0.55 m²', us: '5.9 ft²' },
  hotIn: { si: '65 °C', us: '150 °F' },
  hotOut: { si: '45 °C', us: '113 °F' },
  coldIn: { si: '25 °C', us: '77 °F' },
  coldOut: { si: '35 °C', us: '95 °F' },
  hotFlow: { si: '60 m³/h', us: '264 gal/min' },
  coldFlow: { si: '118 m³/h', us: '520 gal/min' },
  foulingResistance: { si: '0.0002 m²·K/W', us: '0.001 h·ft²·°F/Btu' },
  outletTemperature: { si: '48 °C', us: '118 °F' },
  pressureDrop: { si: '80 kPa', us: '12 psi' },
  cleanPressureDrop: { si: '45 kPa', us: '6.5 psi' },
  pumpHead: { si: '250 kPa', us: '36 psi' },
  maximumFlow: { si: '150 m³/h', us: '660 gal/min' },
  density: { si: '860 kg/m³', us: '53.7 lb/ft³' },
  specificHeat: { si: '3.9 kJ/(kg·K)', us: '0.93 Btu/(lb·°F)' },
  boiling: { si: '150 °C', us: '300 °F' },
} as const satisfies Record<string, Record<UnitSystem, string>>;

export function exampleOf(name: keyof typeof EXAMPLES, system: UnitSystem): string {
  return EXAMPLES[name][system];
}
