import type { Unit } from '@/lib/contract/fleet-file';
import type { Quantity } from '@/lib/contract/quantity';

/** A figure with its UCUM unit. */
export function q(value: number, unit: string): Quantity {
  return { value, unit };
}

type Design = {
  /** Unit of the four temperatures. */
  scale: 'Cel' | '[degF]';
  /** Inlet and outlet. */
  hot: [number, number];
  cold: [number, number];
  hotFlow: Quantity;
  coldFlow: Quantity;
  cleanU?: Quantity;
};

/** A design point as a datasheet prints it. */
export function designPoint({ scale, hot, cold, ...others }: Design): Unit['design'] {
  return {
    hotIn: q(hot[0], scale),
    hotOut: q(hot[1], scale),
    coldIn: q(cold[0], scale),
    coldOut: q(cold[1], scale),
    ...others,
  };
}

/** Four thermometers of one standard uncertainty and two flow meters of one relative uncertainty each. */
export function sensorsOf(
  thermometer: Quantity,
  hotMeter: number,
  coldMeter: number,
): NonNullable<Unit['sensors']> {
  const uncertainty = thermometer;
  return {
    hotIn: { uncertainty },
    hotOut: { uncertainty },
    coldIn: { uncertainty },
    coldOut: { uncertainty },
    hotFlow: { uncertainty: hotMeter },
    coldFlow: { uncertainty: coldMeter },
  };
}

/** Energy of a supply of the site, which has dated prices. */
export function energyOf(
  effect: 'heating' | 'cooling' | 'recovery',
  figures: { supply: string; efficiency: number },
): NonNullable<Unit['energy']> {
  return { effect, ...figures };
}

/** Energy with its price and carbon dioxide per kilowatt-hour on the datasheet, without a date. */
export function undatedEnergyOf(
  effect: 'heating' | 'cooling' | 'recovery',
  figures: { price: number; efficiency: number; carbon: number },
): NonNullable<Unit['energy']> {
  return {
    effect,
    price: { amount: figures.price, per: 'kW.h' },
    efficiency: figures.efficiency,
    carbon: { kg: figures.carbon, per: 'kW.h' },
  };
}

/** What a cleaning takes, and what whoever does it must know. */
export function cleaningOf(
  method: string,
  figures: { cost: number; hours: number; crewHours: number },
  notes: { isolation: string; compatibility: string },
): NonNullable<Unit['cleaning']> {
  const { cost, hours, crewHours } = figures;
  return { method, cost, duration: q(hours, 'h'), crewHours, ...notes };
}

/** A cleaning for which the plant must stand still. */
export function inOutageOnly(cleaning: NonNullable<Unit['cleaning']>): NonNullable<Unit['cleaning']> {
  return { ...cleaning, inOutageOnly: true };
}

/** A cleaning that costs more than its own price for each hour outside an outage; 0 where another unit takes over. */
export function losingPerHour(
  cleaning: NonNullable<Unit['cleaning']>,
  downtimePerHour: number,
): NonNullable<Unit['cleaning']> {
  return { ...cleaning, downtimePerHour };
}
