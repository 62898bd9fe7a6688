import { z } from 'zod';
import {
  cleanReferencePreviewSchema,
  cleanReferencesSchema,
  referenceAcceptanceSchema,
  referenceProposalSchema,
} from '../../clean-references';
import { fallAnswerRequestSchema, fallsSchema } from '../../fall-answers';
import { fleetFileSchema } from '../../fleet-file';
import { fleetQuerySchema, fleetSendingSchema, fleetSheetCheckSchema } from '../../fleet-sheet/answer';
import { unitResultSchema } from '../../results';
import { verdictRequestSchema, verdictsSchema } from '../../verdicts';
import { withdrawalSchema } from '../../withdrawal';
import { registeredUnitsSchema, takenFleetSchema, unitAnswerSchema, unitRequestSchema } from '../answers';
import { CSV_TYPE, json, type Operation } from '../operation';
import { checkQuerySchema } from '../queries';

const fleetResultSchema = z.array(unitResultSchema).meta({ id: 'FleetResult' });

const fleetAnswerSchema = z
  .union([takenFleetSchema, fleetSheetCheckSchema])
  .meta({ id: 'FleetAnswer', description: 'What was registered; of a check, what would come of it' });

const WORKBOOK = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

const referenceRequestSchema = z
  .union([referenceAcceptanceSchema, referenceProposalSchema])
  .meta({ id: 'CleanReferenceRequest', description: 'With check=1 the proposal, else the acceptance' });

const referenceAnswerSchema = z
  .union([cleanReferencesSchema, cleanReferencePreviewSchema])
  .meta({ id: 'CleanReferenceAnswer' });

export const UNIT_OPERATIONS = {
  'GET /api/v1/units': {
    group: 'Units',
    summary: 'Every registered unit with its datasheet',
    answer: json(registeredUnitsSchema),
  },
  'POST /api/v1/units': {
    group: 'Units',
    summary: 'Adds or changes one unit',
    details:
      'With check=1 nothing is stored: the answer says what is wrong and what already follows from it.',
    query: checkQuerySchema,
    body: json(unitRequestSchema),
    answer: json(unitAnswerSchema),
    errors: ['not-found', 'conflict'],
  },
  'GET /api/v1/fleet': {
    group: 'Results',
    summary: 'Results of every analysed unit, the most urgent first',
    details: 'With format=xlsx the workbook that units are described in.',
    query: fleetQuerySchema,
    answer: { ...json(fleetResultSchema), [WORKBOOK]: null },
  },
  'POST /api/v1/fleet': {
    group: 'Units',
    summary: 'Registers the units of a fleet file or of its workbook, all of them or none',
    details: 'With check=1 a workbook (or one sheet of it as CSV) is looked at and nothing is stored.',
    query: fleetSendingSchema,
    body: { ...json(fleetFileSchema), [WORKBOOK]: null, [CSV_TYPE]: null },
    answer: json(fleetAnswerSchema),
    errors: ['conflict', 'not-readable'],
  },
  'GET /api/v1/units/[tag]/references': {
    group: 'Units',
    summary: 'Every clean reference of a unit, and what its results were judged by',
    answer: json(cleanReferencesSchema),
  },
  'POST /api/v1/units/[tag]/references': {
    group: 'Units',
    summary: 'Accepts a clean reference; with check=1 says what it would be and change',
    query: checkQuerySchema,
    body: json(referenceRequestSchema),
    answer: json(referenceAnswerSchema),
    errors: ['conflict'],
  },
  'GET /api/v1/units/[tag]/verdicts': {
    group: 'Judgement',
    summary: 'Every verdict on readings of a unit',
    answer: json(verdictsSchema),
  },
  'POST /api/v1/units/[tag]/verdicts': {
    group: 'Judgement',
    summary: 'Leaves the readings of a period out, or counts them in',
    body: json(verdictRequestSchema),
    answer: json(verdictsSchema),
  },
  'POST /api/v1/units/[tag]/verdicts/[id]/withdraw': {
    group: 'Judgement',
    summary: 'Withdraws a verdict; it stays in the history',
    body: json(withdrawalSchema),
    answer: json(verdictsSchema),
    errors: ['conflict'],
  },
  'GET /api/v1/units/[tag]/falls': {
    group: 'Judgement',
    summary: 'Falls of the fouling that wait for an answer, and every answer given',
    answer: json(fallsSchema),
  },
  'POST /api/v1/units/[tag]/falls': {
    group: 'Judgement',
    summary: 'Says whether a fall of the fouling was a cleaning',
    body: json(fallAnswerRequestSchema),
    answer: json(fallsSchema),
    errors: ['conflict'],
  },
  'POST /api/v1/units/[tag]/falls/[id]/withdraw': {
    group: 'Judgement',
    summary: 'Takes an answer to a fall back, with the cleaning recorded by it',
    body: json(withdrawalSchema),
    answer: json(fallsSchema),
    errors: ['conflict'],
  },
} as const satisfies Record<string, Operation>;
