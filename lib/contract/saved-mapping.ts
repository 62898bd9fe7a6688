import { z } from 'zod';
import { mappingSchema } from './mapping';

/** What a saved mapping is called: it stands in an address and on a command line. */
export const mappingNameSchema = z
  .string()
  .trim()
  .min(1, 'needs a name, such as "Unit 1 hourly"')
  .max(80, 'has at most 80 characters')
  .regex(/^[^/\\\p{Cc}]*$/u, 'has no slashes and no line breaks');

export const saveMappingRequestSchema = z
  .object({
    mapping: mappingSchema,
    revision: z
      .int()
      .min(0)
      .nullable()
      .meta({ description: 'The revision that was edited; null for a new mapping' }),
  })
  .meta({ id: 'SaveMappingRequest' });

export type SaveMappingRequest = z.infer<typeof saveMappingRequestSchema>;

export const savedMappingSchema = z
  .object({
    name: z.string(),
    revision: z.int().meta({ description: 'Grows with every change; an edit of an older one is refused' }),
    changedAt: z.iso.datetime(),
    changedBy: z.string(),
    mapping: mappingSchema,
  })
  .meta({
    id: 'SavedMapping',
    description: 'How the columns of a plant’s files belong to units, kept by name',
  });

export type SavedMapping = z.infer<typeof savedMappingSchema>;

export const savedMappingsSchema = z
  .object({ mappings: z.array(savedMappingSchema) })
  .meta({ id: 'SavedMappings' });

/** What a deletion names: the revision that was looked at. */
export const deleteMappingQuerySchema = z
  .object({
    revision: z
      .string()
      .regex(/^\d{1,9}$/, 'is the revision that is to go, a whole number')
      .transform(Number),
  })
  .meta({ id: 'DeleteMappingQuery' });
