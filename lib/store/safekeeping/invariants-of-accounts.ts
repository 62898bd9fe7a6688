import { areJson, type Invariant, rowInvariant } from './finding';

export const ACCOUNT_INVARIANTS: readonly Invariant[] = [
  rowInvariant({
    name: 'record of changes',
    tables: ['change_record'],
    rows: 'SELECT id, subject, subject_name, "before", "after" FROM change_record ORDER BY id',
    things: 'changes, with what stood before and after as JSON',
    problemOf: ({ id, subject, subject_name, before, after }) =>
      areJson(before, after)
        ? null
        : `change ${id} (${subject} ${subject_name}): what stood before or after is no JSON`,
  }),
];
