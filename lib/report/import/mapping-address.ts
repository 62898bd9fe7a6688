import type { Mapping } from '@/lib/contract/mapping';

/** A server takes some 16 kB of address and headers together: a longer mapping is saved first and goes by its name. */
export const LONGEST_IN_ADDRESS = 8000;

export function lengthInAddress(mapping: Mapping): number {
  return encodeURIComponent(JSON.stringify(mapping)).length;
}
