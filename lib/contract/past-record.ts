import { z } from 'zod';

const share = z.number().min(0).max(1).nullable();
const figure = z.number().nullable();
const day = z.iso.date();

const summarySchema = z.object({
  count: z.int(),
  held: z.int(),
  heldShare: share,
  heldInterval: z.tuple([z.number(), z.number()]).nullable(),
  medianErrorDays: figure,
  medianErrorShare: figure,
  tooEarly: z.int(),
  tooLate: z.int(),
  noDay: z.int(),
});

const namedSchema = summarySchema.extend({ name: z.string() });

/** How past projections of the fleet did: answer of `GET /api/v1/record`. */
export const pastRecordSchema = z
  .object({
    asOf: z.string().nullable(),
    aim: z.number(),
    byShareOfLife: z.array(
      summarySchema.extend({
        shareOfLife: z.number(),
        bySite: z.array(namedSchema),
        byService: z.array(namedSchema),
      }),
    ),
    widening: z.array(
      z.object({
        tag: z.string(),
        factor: z.number(),
        from: z.enum(['unit', 'fleet', 'none']),
        count: z.int(),
      }),
    ),
    projections: z.array(
      z.object({
        tag: z.string(),
        site: z.string(),
        service: z.string(),
        cycleStart: day,
        madeOn: day,
        shareOfLife: z.number(),
        level: z.number(),
        isLimit: z.boolean(),
        p10: day.nullable(),
        p50: day.nullable(),
        p90: day.nullable(),
        reachedOn: day,
        reachedUncertaintyDays: z.number(),
        held: z.boolean(),
        score: figure,
        errorDays: figure,
        errorShare: figure,
      }),
    ),
  })
  .meta({
    id: 'PastRecord',
    description:
      'Past projections made again and compared with what came; errors are P50 less the day reached, shares are of the days left',
  });

export type PastRecord = z.infer<typeof pastRecordSchema>;
