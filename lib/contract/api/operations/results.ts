import { z } from 'zod';
import { changesQuerySchema, changesSchema } from '../../changes';
import { costsQuerySchema, fleetCostsSchema } from '../../costs';
import { dataHealthSchema } from '../../data-health';
import { pastRecordSchema } from '../../past-record';
import { priceRequestSchema, pricesSchema } from '../../prices';
import { evaluatedReadingSchema, evaluateRequestSchema } from '../../readings';
import { dailyResultSchema, unitResultSchema } from '../../results';
import { markRequestSchema, reviewQuerySchema, reviewSchema } from '../../review';
import { CSV_TYPE, json, type Operation } from '../operation';
import { formatQuerySchema } from '../queries';

const evaluatedSchema = z.array(evaluatedReadingSchema).meta({ id: 'EvaluatedReadings' });

const markedSchema = markRequestSchema
  .safeExtend({ by: z.string(), text: z.string().nullable(), at: z.string() })
  .meta({ id: 'MarkedLine' });

export const RESULT_OPERATIONS = {
  'GET /api/v1/units/[tag]': {
    group: 'Results',
    summary: 'The last result of a unit: state, clean-by date, fouling, losses',
    answer: json(unitResultSchema),
  },
  'GET /api/v1/units/[tag]/daily': {
    group: 'Results',
    summary: 'Daily figures of a unit',
    answer: json(dailyResultSchema),
  },
  'POST /api/v1/evaluate': {
    group: 'Results',
    summary: 'Evaluates readings against a datasheet; nothing is stored',
    body: json(evaluateRequestSchema),
    answer: json(evaluatedSchema),
  },
  'GET /api/v1/health': {
    group: 'Results',
    summary: 'Data health of every unit, what needs a person first',
    query: formatQuerySchema,
    answer: { ...json(dataHealthSchema), [CSV_TYPE]: null },
  },
  'GET /api/v1/record': {
    group: 'Results',
    summary: 'How past projections did',
    query: formatQuerySchema,
    answer: { ...json(pastRecordSchema), [CSV_TYPE]: null },
  },
  'GET /api/v1/costs': {
    group: 'Costs and prices',
    summary: 'What fouling costs in a period',
    query: costsQuerySchema,
    answer: { ...json(fleetCostsSchema), [CSV_TYPE]: null },
  },
  'GET /api/v1/prices': {
    group: 'Costs and prices',
    summary: 'What supplies cost and emit, by day, and which units use them',
    answer: json(pricesSchema),
  },
  'POST /api/v1/prices': {
    group: 'Costs and prices',
    summary: 'States a price or a factor from a day on, or takes one back',
    body: json(priceRequestSchema),
    answer: json(pricesSchema),
    errors: ['not-found', 'conflict'],
  },
  'GET /api/v1/review': {
    group: 'Review',
    summary: 'What changed since a day, in SI units',
    query: reviewQuerySchema,
    answer: json(reviewSchema),
  },
  'POST /api/v1/review/marks': {
    group: 'Review',
    summary: 'Marks a line of the review: a note, who takes it on, that it was seen',
    body: json(markRequestSchema),
    answer: json(markedSchema),
    errors: ['not-found'],
  },
  'GET /api/v1/changes': {
    group: 'Changes',
    summary: 'Who changed what and when, the newest first, a page at a time',
    query: changesQuerySchema,
    answer: { ...json(changesSchema), [CSV_TYPE]: null },
  },
} as const satisfies Record<string, Operation>;
