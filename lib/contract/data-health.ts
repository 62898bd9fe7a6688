import { z } from 'zod';
import { reasonSchema } from './readings';
import { STATES } from './results';

const day = z.iso.date().nullable();
const figure = z.number().nullable();

/** Data health of the fleet: answer of `GET /api/v1/health`. */
export const dataHealthSchema = z
  .object({
    asOf: z.string().nullable(),
    days: z.int(),
    units: z.array(
      z.object({
        tag: z.string(),
        site: z.string(),
        service: z.string(),
        state: z.enum(STATES),
        kind: z.enum(['suspect', 'few', 'fine', 'no-data']),
        usable: figure,
        worstReason: reasonSchema.nullable(),
        since: day,
        suspectSince: day,
        drift: z
          .object({
            kind: z.enum(['drift', 'shift']),
            since: z.iso.date(),
            change: z.number(),
            changeUncertainty: z.number(),
            perMonth: figure,
            perMonthUncertainty: figure,
          })
          .nullable(),
        readings: z.int(),
        accepted: z.int(),
      }),
    ),
    reasons: z.array(z.object({ reason: reasonSchema, readings: z.int(), units: z.int() })),
  })
  .meta({
    id: 'DataHealth',
    description:
      'Readings of the last `days` days; those left out count under the chief reason of their day, standstill counts nowhere',
  });

export type DataHealth = z.infer<typeof dataHealthSchema>;
