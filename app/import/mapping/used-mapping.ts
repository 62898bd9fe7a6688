import type { Mapping } from '@/lib/contract/mapping';

/** The mapping a file is read with, and the saved one it is, where it is one. */
export type UsedMapping = { mapping: Mapping | null; saved: { name: string; revision: number } | null };

export const NO_MAPPING: UsedMapping = { mapping: null, saved: null };
