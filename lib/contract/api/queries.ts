import { z } from 'zod';

/** Addresses under which a document comes as JSON or as a file of rows. */
export const formatQuerySchema = z
  .object({ format: z.enum(['json', 'csv']).optional() })
  .meta({ id: 'FormatQuery' });

/** Addresses under which something can be tried without storing it. */
export const checkQuerySchema = z
  .object({
    check: z.enum(['0', '1']).optional().meta({ description: '1: say what would come of it, store nothing' }),
  })
  .meta({ id: 'CheckQuery' });
