import type { Unit } from '@/lib/contract/fleet-file';
import { AMBIENT_AIR, SEA_WATER, steamAt, WATER, WHOLE_MILK } from './fleet/fluids';
import { q } from './fleet/quantities';

type Stream = Unit['hot'];

/** Fluids and a range of clean conductances [W/(m²·K)] that go together in one construction. */
export type Family = {
  construction: NonNullable<Unit['construction']>;
  arrangements: Unit['arrangement'][];
  hot: Stream[];
  cold: Stream[];
  cleanU: [number, number];
};

const GLYCOLS: Stream[] = [
  { fluid: 'ethylene-glycol', concentration: 0.35 },
  { fluid: 'propylene-glycol', concentration: 0.25 },
];
const OIL: Stream = { fluid: 'oil', density: q(870, 'kg/m3'), characterisationFactor: 12 };
const STEAM = [steamAt(1.2, 'bar'), steamAt(29, '[psi]'), steamAt(350, 'kPa')];

export const FAMILIES: Family[] = [
  {
    construction: 'plate',
    arrangements: [
      [1, 1],
      [2, 1],
      [1, 2],
      [2, 2],
      [3, 1],
    ].map(([hotPasses, coldPasses]) => ({ kind: 'plate', hotPasses, coldPasses })),
    hot: [WATER, ...GLYCOLS],
    cold: [WATER, SEA_WATER, WHOLE_MILK],
    cleanU: [2000, 4500],
  },
  {
    construction: 'shell-and-tube',
    arrangements: [
      [1, 2],
      [2, 4],
      [1, 1],
      [1, 4],
    ].map(([shellPasses, tubePasses]) => ({ kind: 'shell-and-tube', shellPasses, tubePasses })),
    hot: [WATER, OIL],
    cold: [WATER, SEA_WATER, ...GLYCOLS],
    cleanU: [300, 1500],
  },
  {
    construction: 'double-pipe',
    arrangements: [{ kind: 'counter-current' }, { kind: 'co-current' }],
    hot: [WATER, OIL, ...GLYCOLS],
    cold: [WATER],
    cleanU: [300, 1400],
  },
  {
    construction: 'air-cooled',
    arrangements: (['none', 'hot', 'cold', 'both'] as const).map((mixed) => ({ kind: 'crossflow', mixed })),
    hot: [WATER, ...GLYCOLS],
    cold: [AMBIENT_AIR],
    cleanU: [30, 60],
  },
  {
    construction: 'shell-and-tube',
    arrangements: [{ kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2 }],
    hot: STEAM,
    cold: [WATER, WHOLE_MILK],
    cleanU: [1200, 3000],
  },
];

/** Codes of one system of units of measure. */
export type Codes = Record<
  'temperature' | 'massFlow' | 'volumeFlow' | 'area' | 'foulingResistance' | 'temperatureDifference',
  string
>;
export const SYSTEMS: Codes[] = [
  {
    temperature: 'Cel',
    massFlow: 'kg/s',
    volumeFlow: 'm3/h',
    area: 'm2',
    foulingResistance: 'm2.K/W',
    temperatureDifference: 'K',
  },
  {
    temperature: '[degF]',
    massFlow: '[lb_av]/h',
    volumeFlow: '[gal_us]/min',
    area: '[ft_i]2',
    foulingResistance: 'h.[ft_i]2.[degF]/[Btu_IT]',
    temperatureDifference: '[degF]',
  },
];
