import { planRequestSchema, planResultSchema } from '@/lib/contract/plan';
import { PLANNED_STATES } from '@/lib/contract/planned';
import { documentInvariant } from './document-invariant';
import { type Invariant, sqlInvariant } from './finding';

const STATES = PLANNED_STATES.map((state) => `'${state}'`).join(', ');

export const PLAN_INVARIANTS: readonly Invariant[] = [
  documentInvariant({
    name: 'accepted plans',
    tables: ['cleaning_plan'],
    rows: "SELECT 'plan ' || id AS label, result AS document FROM cleaning_plan ORDER BY id",
    things: 'plans, as the contract has them',
    schema: planResultSchema,
  }),
  documentInvariant({
    name: 'what plans were asked for',
    tables: ['cleaning_plan'],
    rows: "SELECT 'plan ' || id AS label, request AS document FROM cleaning_plan ORDER BY id",
    things: 'requests, as the contract has them',
    schema: planRequestSchema,
  }),
  sqlInvariant({
    name: 'planned work',
    tables: ['planned_cleaning'],
    count: 'SELECT count(*) AS n FROM planned_cleaning',
    things: 'pieces of work in a known state, none ending before it begins',
    wrong: `
      SELECT 'work ' || id || ': ' ||
        CASE WHEN to_at < from_at THEN 'it ends before it begins' ELSE 'unknown state ' || state END AS problem
      FROM planned_cleaning WHERE to_at < from_at OR state NOT IN (${STATES}) ORDER BY id`,
  }),
];
