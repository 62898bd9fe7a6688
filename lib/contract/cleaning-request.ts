import { z } from 'zod';
import { positiveQuantity } from './quantity';

/** A cleaning as another program reports it. */
export const cleaningRequestSchema = z
  .object({
    at: z.iso.datetime({
      offset: true,
      error: 'write it as ISO 8601 with offset, such as 2026-05-04T08:00:00+01:00',
    }),
    method: z.string().max(120).nullish(),
    cost: z.number().min(0).nullish(),
    duration: positiveQuantity('duration').nullish(),
    note: z.string().max(500).nullish(),
  })
  .meta({ id: 'CleaningRequest' });

export type CleaningRequest = z.infer<typeof cleaningRequestSchema>;
