import type { Invariant } from './finding';
import { ACCOUNT_INVARIANTS } from './invariants-of-accounts';
import { IMPORT_INVARIANTS } from './invariants-of-imports';
import { PLAN_INVARIANTS } from './invariants-of-plans';
import { RESULT_INVARIANTS } from './invariants-of-results';
import { UNIT_INVARIANTS } from './invariants-of-units';

/** What must hold in every database between transactions, beyond what SQLite itself keeps. A new table brings its own. */
export const INVARIANTS: readonly Invariant[] = [
  ...UNIT_INVARIANTS,
  ...IMPORT_INVARIANTS,
  ...RESULT_INVARIANTS,
  ...PLAN_INVARIANTS,
  ...ACCOUNT_INVARIANTS,
];
