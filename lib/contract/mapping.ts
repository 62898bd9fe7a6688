import { z } from 'zod';
import { sensorSchema } from './readings';

/** How the sensors of a plant-wide or long file belong to units: column or sensor name → unit, quantity, unit of measure. */
export const mappingSchema = z
  .object({
    timeZone: z
      .string()
      .optional()
      .meta({ description: 'Zone of times without offset, such as Europe/Lisbon' }),
    timeColumn: z.string().optional(),
    sensors: z.record(
      z.string(),
      z.object({ tag: z.string(), sensor: sensorSchema, unit: z.string() }).or(z.null()),
    ),
  })
  .meta({ id: 'Mapping', description: 'null skips a column' });

export type Mapping = z.infer<typeof mappingSchema>;
