import { importPreviewSchema } from '../../import-preview';
import { importQuerySchema } from '../../import-request';
import { replacedQuerySchema, replacedReadingsSchema, undoPreviewSchema } from '../../replaced-readings';
import {
  deleteMappingQuerySchema,
  savedMappingSchema,
  savedMappingsSchema,
  saveMappingRequestSchema,
} from '../../saved-mapping';
import { deletedMappingSchema, importsSchema, setAsideSchema, undoneImportSchema } from '../answers';
import { importLineSchema, takenUploadSchema } from '../import-lines';
import { CSV_TYPE, json, type Operation } from '../operation';
import { formatQuerySchema } from '../queries';

/** A file of readings, in any of the ways a plant writes one; packed with gzip or not. */
const READINGS = {
  [CSV_TYPE]: null,
  'application/x-ndjson': null,
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet': null,
  'application/gzip': null,
  'application/octet-stream': null,
};

const group = 'Readings in';

export const READING_OPERATIONS = {
  'POST /api/v1/imports': {
    group,
    summary: 'Takes a file of readings in',
    details:
      'The body is the file itself: CSV in any of the layouts, XLSX, or a JSON document per line; plain, gzip, or with Content-Encoding: gzip. It is taken whole or not at all, rows that cannot be read are kept aside and the rest go in. Sending the same file again changes nothing and answers with the import that stands (`repeated`), unless a later file has changed a value of it since: then this one counts again. With Accept: application/x-ndjson progress comes line by line, and the report or problem as the last line; hanging up cancels the import.',
    query: importQuerySchema,
    body: READINGS,
    answer: { 'application/json': takenUploadSchema, 'application/x-ndjson': importLineSchema },
    errors: ['not-readable', 'not-found'],
  },
  'POST /api/v1/imports/preview': {
    group,
    summary: 'Looks at a file, or at its beginning, and stores nothing',
    details: 'At most the first 2 MiB of a file; `cut=1` says that it goes on behind them.',
    query: importQuerySchema,
    body: READINGS,
    answer: json(importPreviewSchema),
    errors: ['not-readable', 'not-found'],
  },
  'GET /api/v1/imports': {
    group,
    summary: 'The latest imports',
    answer: json(importsSchema),
  },
  'GET /api/v1/imports/[batch]/set-aside': {
    group,
    summary: 'Rows of an import that were kept aside, with what would mend them',
    query: formatQuerySchema,
    answer: { ...json(setAsideSchema), [CSV_TYPE]: null },
  },
  'POST /api/v1/imports/[batch]/undo': {
    group,
    summary: 'Takes an import back and brings results up to date',
    details:
      'What it added is removed, what it replaced is put back; what a later import changed again stays.',
    answer: json(undoneImportSchema),
    errors: ['conflict'],
  },
  'GET /api/v1/imports/[batch]/undo-preview': {
    group,
    summary: 'What taking an import back would do',
    answer: json(undoPreviewSchema),
    errors: ['conflict'],
  },
  'GET /api/v1/imports/[batch]/replaced': {
    group,
    summary: 'Readings that an import replaced, as they stood before and since',
    query: replacedQuerySchema,
    answer: { ...json(replacedReadingsSchema), [CSV_TYPE]: null },
  },
  'GET /api/v1/mappings': {
    group,
    summary: 'Saved mappings: how the columns of files belong to units',
    answer: json(savedMappingsSchema),
  },
  'GET /api/v1/mappings/[name]': {
    group,
    summary: 'One saved mapping',
    answer: json(savedMappingSchema),
  },
  'PUT /api/v1/mappings/[name]': {
    group,
    summary: 'Keeps a mapping by its name',
    body: json(saveMappingRequestSchema),
    answer: json(savedMappingSchema),
    errors: ['conflict'],
  },
  'DELETE /api/v1/mappings/[name]': {
    group,
    summary: 'Deletes a saved mapping',
    query: deleteMappingQuerySchema,
    answer: json(deletedMappingSchema),
    errors: ['conflict'],
  },
} as const satisfies Record<string, Operation>;
