/** A person's word on the readings from an instant to another [ms, the end excluded]: left out, or counted in. */
export type JudgedPeriod = { from: number; to: number; verdict: 'include' | 'exclude' };
