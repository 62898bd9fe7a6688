import { cleaningFileQuerySchema, cleaningFileSchema, KEPT_FILE_TYPES } from '../../cleaning-files';
import { cleaningRequestSchema, cleaningsSchema, sentCorrectionSchema } from '../../cleaning-request';
import { cleaningsQuerySchema, fleetCleaningsSchema } from '../../fleet-cleanings';
import { unitResultSchema } from '../../results';
import { withdrawalSchema } from '../../withdrawal';
import { CSV_TYPE, json, type Operation } from '../operation';

const group = 'Cleanings';

const KEPT_FILE = Object.fromEntries(KEPT_FILE_TYPES.map((type) => [type, null]));

export const CLEANING_OPERATIONS = {
  'GET /api/v1/cleanings': {
    group,
    summary: 'What the cleanings of a period did',
    query: cleaningsQuerySchema,
    answer: { ...json(fleetCleaningsSchema), [CSV_TYPE]: null },
  },
  'GET /api/v1/units/[tag]/cleanings': {
    group,
    summary: 'The recorded cleanings of a unit, and what was corrected or withdrawn',
    answer: json(cleaningsSchema),
  },
  'POST /api/v1/units/[tag]/cleanings': {
    group,
    summary: 'Records a cleaning and answers with the unit’s new result',
    body: json(cleaningRequestSchema),
    answer: json(unitResultSchema),
    errors: ['conflict'],
  },
  'PATCH /api/v1/units/[tag]/cleanings/[id]': {
    group,
    summary: 'Corrects a recorded cleaning: what is left out stays',
    body: json(sentCorrectionSchema),
    answer: json(cleaningsSchema),
    errors: ['conflict'],
  },
  'POST /api/v1/units/[tag]/cleanings/[id]/withdraw': {
    group,
    summary: 'Withdraws a cleaning; it stays in the history',
    body: json(withdrawalSchema),
    answer: json(cleaningsSchema),
    errors: ['conflict'],
  },
  'POST /api/v1/cleaning-files': {
    group,
    summary: 'Keeps a photograph or a report with a recorded cleaning',
    query: cleaningFileQuerySchema,
    body: KEPT_FILE,
    answer: json(cleaningFileSchema),
    errors: ['not-found'],
  },
  'GET /api/v1/cleaning-files/[id]': {
    group,
    summary: 'A kept file',
    answer: KEPT_FILE,
  },
} as const satisfies Record<string, Operation>;
