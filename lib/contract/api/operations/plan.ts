import { calendarSchema } from '../../calendar';
import { planRequestSchema, planResultSchema } from '../../plan';
import {
  planAcceptanceSchema,
  workCallOffSchema,
  workDoneSchema,
  workLinkSchema,
  workListSchema,
  workMoveSchema,
  workQuerySchema,
} from '../../planned';
import { acceptedPlanSchema, calledOffWorkSchema, finishedWorkSchema, movedWorkSchema } from '../answers';
import { CSV_TYPE, json, type Operation } from '../operation';

const group = 'Plan';

export const PLAN_OPERATIONS = {
  'PUT /api/v1/calendar': {
    group,
    summary: 'Puts a site’s calendar in the place of the one before',
    body: json(calendarSchema),
    answer: json(calendarSchema),
    errors: ['not-found', 'conflict'],
  },
  'POST /api/v1/plan': {
    group,
    summary: 'Makes a cleaning plan; nothing is stored',
    details: 'Hanging up stops the solver.',
    body: json(planRequestSchema),
    answer: json(planResultSchema),
    errors: ['not-found', 'solver-unusable'],
  },
  'POST /api/v1/plan/accept': {
    group,
    summary: 'Takes a schedule on as dated work, and answers with the work list',
    details: 'A schedule that breaks constraints is taken only with `acceptClashes`.',
    body: json(planAcceptanceSchema),
    answer: json(acceptedPlanSchema),
    errors: ['not-found', 'conflict'],
  },
  'GET /api/v1/plan/work': {
    group,
    summary: 'Dated work out of accepted plans',
    query: workQuerySchema,
    answer: {
      ...json(workListSchema),
      [CSV_TYPE]: null,
      'text/calendar': null,
      'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet': null,
    },
  },
  'POST /api/v1/plan/work/[id]/done': {
    group,
    summary: 'Marks dated work done: the cleaning is recorded with it',
    body: json(workDoneSchema),
    answer: json(finishedWorkSchema),
    errors: ['conflict'],
  },
  'POST /api/v1/plan/work/[id]/link': {
    group,
    summary: 'Says which recorded cleaning dated work was',
    body: json(workLinkSchema),
    answer: json(finishedWorkSchema),
    errors: ['conflict'],
  },
  'POST /api/v1/plan/work/[id]/move': {
    group,
    summary: 'Moves dated work to another time',
    body: json(workMoveSchema),
    answer: json(movedWorkSchema),
    errors: ['conflict'],
  },
  'POST /api/v1/plan/work/[id]/call-off': {
    group,
    summary: 'Calls dated work off; it is kept',
    body: json(workCallOffSchema),
    answer: json(calledOffWorkSchema),
    errors: ['conflict'],
  },
} as const satisfies Record<string, Operation>;
