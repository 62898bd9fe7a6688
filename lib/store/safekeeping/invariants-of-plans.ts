import { planRequestSchema, planResultSchema } from '@/lib/contract/plan';
import { PLANNED_STATES } from '@/lib/contract/planned';
import { documentInvariant } from './document-invariant';
import { type Invariant, sqlInvariant } from './finding';

const STATES = PLANNED_STATES.map((state) => `'${state}'`).join(', ');

export const PLAN_INVARIANTS: readonly Invariant[] = [
  documentInvariant({
    name: 'accepted plans',
    tables: ['cleaning_plan'],
    rows: "SELECT printf('plan %d', id) AS label, result AS document FROM cleaning_plan",
    things: 'plans, as the contract has them',
    schema: planResultSchema,
  }),
  documentInvariant({
    name: 'what plans were asked for',
    tables: ['cleaning_plan'],
    rows: "SELECT printf('plan %d', id) AS label, request AS document FROM cleaning_plan",
    things: 'requests, as the contract has them',
    schema: planRequestSchema,
  }),
  sqlInvariant({
    name: 'planned work',
    tables: ['planned_cleaning'],
    count: 'SELECT count(*) AS n FROM planned_cleaning',
    things: 'pieces of work in a known state, none ending before it begins',
    wrong: `
      SELECT printf('work %d: %s', id, iif(to_at < from_at, 'it ends before it begins', 'unknown state ' || state)) AS problem
      FROM planned_cleaning WHERE to_at < from_at OR state NOT IN (${STATES})`,
  }),
];
