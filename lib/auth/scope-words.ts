import type { Right } from './rights';

/** What a token with a scope may do, as people are told. */
export const SCOPE_WORDS: Record<Exclude<Right, 'people' | 'tokens'>, string> = {
  look: 'Read units, results, plans, costs and imports; evaluate readings and draft plans without storing any',
  changes: 'Read who changed what',
  import: 'Send readings, take imports back, keep mappings',
  describe: 'Add units, change datasheets, accept clean references',
  judge: 'Leave readings of a period out or count them in, answer falls of the fouling',
  clean: 'Record, correct and withdraw cleanings, keep files with them',
  review: 'Note, assign and mark lines of the weekly review',
  plan: 'Edit the calendar, accept plans, move dated work',
  price: 'State what supplies cost and emit',
};
