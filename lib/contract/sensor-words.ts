import type { Sensor } from '@/lib/core/exchange/exchanger';

/** What people call each measured quantity. */
export const SENSOR_WORDS: Record<Sensor, string> = {
  hotIn: 'hot inlet temperature',
  hotOut: 'hot outlet temperature',
  coldIn: 'cold inlet temperature',
  coldOut: 'cold outlet temperature',
  hotFlow: 'hot flow',
  coldFlow: 'cold flow',
  hotPressureDrop: 'hot pressure drop',
  coldPressureDrop: 'cold pressure drop',
};
