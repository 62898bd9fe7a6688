import type { State } from '@/lib/contract/results';
import type { Reason } from '@/lib/core/checks/reasons';
import type { Limit } from '@/lib/core/exchange/exchanger';
import type { GrowthModelName } from '@/lib/core/growth/growth';
import { formatNumber } from './figure';

/** The words of the screens for what the core and the contract call by code. */
export const STATE_WORDS: Record<State, string> = {
  clean: 'clean',
  fouling: 'fouling',
  'near-limit': 'near limit',
  'over-limit': 'over limit',
  'no-data': 'no data',
};

export const REASON_WORDS: Record<Reason, string> = {
  missing: 'values missing',
  'not-a-number': 'not a number',
  'out-of-range': 'value out of range',
  'outside-fluid-range': 'outside the fluid’s range',
  'unit-off': 'unit off',
  'flow-below-turndown': 'flow below turndown',
  'frozen-sensor': 'a sensor is frozen',
  spike: 'spikes',
  'reversed-temperatures': 'temperatures reversed',
  'terminal-difference-too-small': 'approach too small to measure',
  'effectiveness-above-limit': 'effectiveness above what is possible',
  'balance-not-closed': 'heat balance does not close',
  'not-steady': 'not steady',
  'excluded-by-person': 'left out by a person',
};

export const LIMIT_WORDS: Record<Limit['kind'], string> = {
  'fouling-resistance': 'fouling resistance',
  cleanliness: 'cleanliness',
  'outlet-temperature': 'outlet temperature',
  'pressure-drop': 'pressure drop',
};

export const MODEL_WORDS: Record<GrowthModelName, string> = {
  none: 'no growth',
  linear: 'linear',
  'delayed-linear': 'delayed linear',
  'falling-rate': 'falling rate',
  asymptotic: 'asymptotic',
};

export { SENSOR_WORDS } from '@/lib/contract/sensor-words';

/** "1 unit", "2.5 days", "10,000 units". */
export function countOf(count: number, one: string, many = `${one}s`): string {
  const figure = Number.isInteger(count) ? formatNumber(count, 0) : String(count);
  return `${figure} ${count === 1 ? one : many}`;
}
