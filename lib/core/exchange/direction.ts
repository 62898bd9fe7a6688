import type { Arrangement } from './exchanger';

/** At which end of the unit each stream enters. */
export type Nozzles = { hotIn: 'top' | 'bottom'; coldIn: 'top' | 'bottom' };

/** What the nozzles say against buoyancy; the words belong to the page that shows it. */
export type BuoyancyAdvice = 'heated-stream-falls' | 'cooled-stream-rises';

/**
 * Direction of flow from the nozzles: entering at opposite ends is counter-current, at the same end co-current.
 *
 * @param nozzles end at which each stream enters [-]
 * @returns 'counter' or 'parallel'
 * @range any
 * @source common practice
 * @check tests/core/exchange/geometry.test.ts
 */
export function directionFromNozzles(nozzles: Nozzles): 'counter' | 'parallel' {
  return nozzles.hotIn === nozzles.coldIn ? 'parallel' : 'counter';
}

/**
 * Where the nozzles work against buoyancy: a stream being heated should rise (enter at the bottom), one being cooled
 * should fall (enter at the top). Advice, not an error.
 *
 * @param nozzles end at which each stream enters [-]
 * @returns advice codes, cold stream first; empty when buoyancy helps both pumps
 * @range any
 * @source common practice
 * @check tests/core/exchange/geometry.test.ts
 */
export function buoyancyAdvice(nozzles: Nozzles): BuoyancyAdvice[] {
  const advice: BuoyancyAdvice[] = [];
  if (nozzles.coldIn === 'top') advice.push('heated-stream-falls');
  if (nozzles.hotIn === 'bottom') advice.push('cooled-stream-rises');
  return advice;
}

/**
 * Whether both streams run the same way through the whole unit: its terminal differences are then at the two inlets and
 * at the two outlets, in any other at opposite ends.
 *
 * @param arrangement how the streams pass each other [-]
 * @returns true for co-current flow, and for plates of equal passes that enter at the same end
 * @range any
 * @source Shah & Sekulić, Fundamentals of Heat Exchanger Design, 2003, sect. 1.6
 * @check tests/core/exchange/geometry.test.ts
 */
export function isCoCurrent(arrangement: Arrangement): boolean {
  if (arrangement.kind === 'co-current') return true;
  if (arrangement.kind !== 'plate') return false;
  return arrangement.flow === 'parallel' && arrangement.hotPasses === arrangement.coldPasses;
}
