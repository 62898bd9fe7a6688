import { z } from 'zod';
import { sensorSchema } from './readings';
import { type TimeFormat, timeFormatSchema } from './time-format';

/** How the sensors of a plant-wide or long file belong to units: column or sensor name → unit, quantity, unit of measure. */
export const mappingSchema = z
  .object({
    timeZone: z
      .string()
      .optional()
      .meta({ description: 'Zone of times without offset, such as Europe/Lisbon' }),
    timeColumn: z.string().optional(),
    dateColumn: z
      .string()
      .optional()
      .meta({ description: 'Column of dates, where `timeColumn` holds the time of day alone' }),
    timeFormat: timeFormatSchema.optional(),
    headerLine: z
      .int()
      .min(1)
      .optional()
      .meta({ description: 'Line (row of a sheet) that names the columns, where it is not found rightly' }),
    unitLine: z
      .int()
      .min(1)
      .optional()
      .meta({ description: 'Line (row of a sheet) that holds the unit of measure of each column' }),
    statusWords: z.array(z.string().trim().min(1).max(60)).max(100).optional().meta({
      description:
        'What a cell may hold instead of a value, beside the usual words such as Bad or No Data: not measured',
    }),
    sensors: z.record(
      z.string(),
      z.object({ tag: z.string(), sensor: sensorSchema, unit: z.string() }).or(z.null()),
    ),
  })
  .meta({ id: 'Mapping', description: 'null skips a column' });

export type Mapping = z.infer<typeof mappingSchema>;

/** A mapping that also says how times are written; one of times alone where there is no other. */
export function withTimeFormat(mapping: Mapping | null, timeFormat: TimeFormat | null): Mapping | null {
  return timeFormat === null ? mapping : { sensors: {}, ...mapping, timeFormat };
}
