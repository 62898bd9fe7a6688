import type { FleetFile, Unit } from '@/lib/contract/fleet-file';

/** The counter-current water unit of the case every practitioner does in the head: 50→40 against 30→40. */
export function plainUnit(tag: string, changes: Partial<Unit> = {}): Unit {
  const celsius = (value: number) => ({ value, unit: 'Cel' });
  return {
    tag,
    arrangement: { kind: 'counter-current' },
    area: { value: 20, unit: 'm2' },
    hot: { fluid: 'water' },
    cold: { fluid: 'water' },
    design: {
      hotIn: celsius(50),
      hotOut: celsius(40),
      coldIn: celsius(30),
      coldOut: celsius(40),
      hotFlow: { value: 10, unit: 'kg/s' },
      coldFlow: { value: 10, unit: 'kg/s' },
    },
    limits: [{ kind: 'fouling-resistance', value: { value: 2e-4, unit: 'm2.K/W' } }],
    ...changes,
  };
}

export function plainFleet(tags: string[], changes: Partial<Unit> = {}): FleetFile {
  return {
    site: { name: 'Test works', timeZone: 'Europe/Lisbon', currency: 'EUR' },
    units: tags.map((tag) => plainUnit(tag, changes)),
  };
}
