import { z } from 'zod';
import { json, type Operation } from './operation';
import { CLEANING_OPERATIONS } from './operations/cleanings';
import { PLAN_OPERATIONS } from './operations/plan';
import { READING_OPERATIONS } from './operations/readings-in';
import { RESULT_OPERATIONS } from './operations/results';
import { UNIT_OPERATIONS } from './operations/units';

const documentSchema = z
  .looseObject({ openapi: z.string(), paths: z.record(z.string(), z.unknown()) })
  .meta({ id: 'OpenApi' });

/** Every operation of the HTTP API, by method and path as the policy names it: the documents of the API are made from it. */
export const OPERATIONS: Record<string, Operation> = {
  ...READING_OPERATIONS,
  ...RESULT_OPERATIONS,
  ...UNIT_OPERATIONS,
  ...CLEANING_OPERATIONS,
  ...PLAN_OPERATIONS,
  'GET /api/v1/openapi.json': {
    group: 'This interface',
    summary: 'This description, as an OpenAPI 3.1 document',
    answer: json(documentSchema),
  },
};
