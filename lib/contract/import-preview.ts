import { z } from 'zod';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { mappingTaskSchema } from './column-guess';
import { SET_ASIDE_REASONS } from './import-report';
import { timeFormatSchema } from './time-format';

const sensor = z.enum(SENSORS);
const values = z.partialRecord(sensor, z.number());

export const setAsideRowSchema = z
  .object({
    line: z.int(),
    text: z.string(),
    reason: z.enum(SET_ASIDE_REASONS),
    field: z.string().nullable(),
    message: z.string(),
  })
  .meta({ id: 'SetAsideRow', description: 'A row that could not be read, and what would mend it' });

const columnSchema = z.object({
  name: z.string(),
  use: z.enum(['tag', 'time', 'date', 'sensor', 'value', 'unit', 'reading', 'ignored', 'unknown']),
  tag: z.string().nullable(),
  sensor: sensor.nullable(),
  unit: z.string().nullable(),
  description: z.string().optional().meta({ description: 'What a row above or below the names says of it' }),
});

const plotSchema = z.object({
  tag: z.string(),
  time: z.array(z.number()),
  values: z.record(sensor, z.array(z.number().nullable())),
  flowBasis: z.int(),
});

/** What a row above the readings is for: it names the columns, states their units, describes them, or is a title. */
export const HEADER_ROLES = ['names', 'units', 'description', 'title'] as const;

const headerRowSchema = z.object({
  line: z.int().meta({ description: 'Line of the file, or row of the sheet' }),
  role: z.enum(HEADER_ROLES),
});

/** A readings file looked at before it is taken: how it is written, its first rows in SI, what would be kept aside. */
export const importPreviewSchema = z
  .object({
    file: z.string(),
    format: z.object({
      kind: z.enum(['canonical', 'long', 'plant-wide']),
      container: z.enum(['text', 'workbook', 'json-lines']).meta({
        description:
          'text: cells kept apart by `delimiter`; of the others delimiter and encoding say nothing',
      }),
      sheet: z.string().nullable().meta({ description: 'Name of the sheet that is read, of a workbook' }),
      headerRows: z.array(headerRowSchema).meta({
        description:
          'The rows above the readings in the order of the file; a mapping overrides them by headerLine and unitLine',
      }),
      delimiter: z.string(),
      decimalComma: z.boolean(),
      encoding: z.string(),
      compressed: z.boolean(),
      columns: z.array(columnSchema),
      times: z
        .object({
          format: timeFormatSchema.nullable(),
          evidence: z.string().meta({ description: 'What in the file, or in the mapping, shows it' }),
        })
        .optional()
        .meta({ description: 'How times are written; null: nothing shows it, and `timeFormat` must say it' }),
    }),
    rows: z.array(
      z.object({
        line: z.int(),
        text: z.string(),
        readings: z.array(z.object({ tag: z.string(), time: z.number(), values, flowBasis: z.int() })),
      }),
    ),
    faults: z.array(z.object({ field: z.string(), message: z.string(), line: z.int().optional() })),
    looked: z.object({
      rows: z.int().meta({ description: 'Data rows looked at' }),
      isWhole: z.boolean().meta({ description: 'False: only the beginning of the file was sent' }),
      setAside: z.int(),
    }),
    setAside: z
      .array(setAsideRowSchema)
      .meta({ description: 'The first of the rows that would be kept aside' }),
    units: z.array(
      z.object({
        tag: z.string(),
        timeZone: z.string(),
        readings: z.int(),
        firstTime: z.number(),
        lastTime: z.number(),
      }),
    ),
    plot: plotSchema.nullable(),
    mapping: mappingTaskSchema
      .nullable()
      .meta({ description: 'What a mapping has to say, with guesses; null where the header says it all' }),
  })
  .meta({ id: 'ImportPreview', description: 'Values in SI, times in ms since 1970' });

export type ImportPreview = z.infer<typeof importPreviewSchema>;
export type PreviewColumn = z.infer<typeof columnSchema>;
export type HeaderRow = z.infer<typeof headerRowSchema>;
export type HeaderRole = (typeof HEADER_ROLES)[number];
export type PreviewPlot = z.infer<typeof plotSchema>;
