import { FEWEST_FOR_CURVES } from './fit-growth';
import type { Growth } from './growth';

/**
 * Whether a growth can say anything of the future: below 8 figures only where earlier cycles lend a rate. Without either,
 * "no growth" carries the weight for want of evidence, which must not pass for a finding.
 *
 * @param growth growth of one cycle
 * @returns true where its projection means something [-]
 * @range  any
 * @source own choice; the count is that from which curves are compared
 * @check  tests/core/growth/can-project.test.ts
 */
export function canProject({ count, isFormExpected }: Pick<Growth, 'count' | 'isFormExpected'>): boolean {
  return count >= FEWEST_FOR_CURVES || (count > 0 && isFormExpected);
}
