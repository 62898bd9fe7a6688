import { type Invariant, sqlInvariant } from './finding';

export const ACCOUNT_INVARIANTS: readonly Invariant[] = [
  sqlInvariant({
    name: 'record of changes',
    tables: ['change_record'],
    count: 'SELECT count(*) AS n FROM change_record',
    things: 'changes, with what stood before and after as JSON',
    wrong: `
      SELECT printf('change %d (%s %s): what stood before or after is no JSON', id, subject, subject_name) AS problem
      FROM change_record WHERE NOT json_valid(ifnull("before", 'null')) OR NOT json_valid(ifnull("after", 'null'))`,
  }),
];
