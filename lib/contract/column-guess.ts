import { z } from 'zod';
import { SURE } from './guess-sureness';
import { sensorSchema } from './readings';

export { SURE } from './guess-sureness';

export const columnGuessSchema = z
  .object({
    tag: z.string(),
    sensor: sensorSchema,
    unit: z
      .string()
      .meta({ description: 'Unit of measure, as written in the file or as its values suggest' }),
    confidence: z
      .number()
      .min(0)
      .max(1)
      .meta({ description: `From ${SURE} on it is called sure` }),
    reasons: z.array(z.string()),
  })
  .meta({
    id: 'ColumnGuess',
    description: 'Which sensor of which unit a column may be; a person says yes or no',
  });

export type ColumnGuess = z.infer<typeof columnGuessSchema>;

/** One column, or one sensor of a long file, that a mapping has to explain. */
export const mappedColumnSchema = z
  .object({
    name: z.string(),
    description: z.string().meta({ description: 'What further header rows say of it' }),
    writtenUnit: z.string().nullable(),
    first: z.array(z.string()).meta({ description: 'The first cells that hold something, as written' }),
    filled: z.int(),
    numbers: z.int(),
    low: z.number().nullable().meta({ description: 'Least and greatest number looked at, as written' }),
    middle: z.number().nullable(),
    high: z.number().nullable(),
    plot: z
      .array(z.number().nullable())
      .meta({ description: 'Some of the numbers in the order of the file' }),
    guess: columnGuessSchema.nullable(),
  })
  .meta({ id: 'MappedColumn' });

export type MappedColumn = z.infer<typeof mappedColumnSchema>;

/** A saved mapping that explains columns of a file. */
const fittingMappingSchema = z.object({
  name: z.string(),
  revision: z.int(),
  known: z.int().meta({ description: 'Columns of the file that it explains or skips' }),
  missing: z.int().meta({ description: 'Names it explains that the file does not have' }),
});

export type FittingMapping = z.infer<typeof fittingMappingSchema>;

/** What a mapping has to say of a file, with guesses and the saved mappings that suit it. */
export const mappingTaskSchema = z
  .object({
    columns: z.array(mappedColumnSchema),
    more: z.int().meta({ description: 'Names that are not listed: there are too many' }),
    timeColumn: z
      .string()
      .nullable()
      .meta({ description: 'The column whose cells are times, where none is named so' }),
    saved: z.array(fittingMappingSchema),
    conversions: z
      .array(
        z.object({
          unit: z.string(),
          kind: z.enum(['temperature', 'massFlow', 'volumeFlow', 'pressure']),
          factor: z.number(),
          offset: z.number(),
        }),
      )
      .meta({ description: 'SI = value · factor + offset, of every unit of measure written or likely here' }),
    designs: z
      .array(
        z.object({
          tag: z.string(),
          temperatures: z.partialRecord(sensorSchema, z.number()),
          flows: z.partialRecord(
            sensorSchema,
            z.object({ mass: z.number().nullable(), volume: z.number().nullable() }),
          ),
        }),
      )
      .meta({ description: 'Design figures in SI of the units that are guessed or mapped' }),
  })
  .meta({ id: 'MappingTask' });

export type MappingTask = z.infer<typeof mappingTaskSchema>;
