import { z } from 'zod';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { SET_ASIDE_REASONS } from './import-report';

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
  use: z.enum(['tag', 'time', 'sensor', 'value', 'unit', 'reading', 'ignored', 'unknown']),
  tag: z.string().nullable(),
  sensor: sensor.nullable(),
  unit: z.string().nullable(),
});

const plotSchema = z.object({
  tag: z.string(),
  time: z.array(z.number()),
  values: z.record(sensor, z.array(z.number().nullable())),
  flowBasis: z.int(),
});

/** A readings file looked at before it is taken: how it is written, its first rows in SI, what would be kept aside. */
export const importPreviewSchema = z
  .object({
    file: z.string(),
    format: z.object({
      kind: z.enum(['canonical', 'long', 'plant-wide']),
      delimiter: z.string(),
      decimalComma: z.boolean(),
      encoding: z.string(),
      compressed: z.boolean(),
      columns: z.array(columnSchema),
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
  })
  .meta({ id: 'ImportPreview', description: 'Values in SI, times in ms since 1970' });

export type ImportPreview = z.infer<typeof importPreviewSchema>;
export type PreviewColumn = z.infer<typeof columnSchema>;
export type PreviewPlot = z.infer<typeof plotSchema>;
