import { z } from 'zod';
import { onlyKnown } from './only-known';
import { positiveQuantity } from './quantity';
import { seenRevision, who, why } from './withdrawal';

const instant = z.iso.datetime({
  offset: true,
  error: 'write it as ISO 8601 with offset, such as 2026-05-04T08:00:00+01:00',
});

const doneShape = {
  method: z.string().max(120).nullish(),
  cost: z.number().min(0).nullish(),
  duration: positiveQuantity('duration').nullish(),
  note: z.string().max(500).nullish(),
};

/** A cleaning as another program reports it. */
export const cleaningRequestSchema = onlyKnown({ at: instant, ...doneShape, by: who }).meta({
  id: 'CleaningRequest',
});

export type CleaningRequest = z.infer<typeof cleaningRequestSchema>;

/** What was wrong about a recorded cleaning: a field left out stays as it is, null empties it. */
export const cleaningCorrectionSchema = onlyKnown({
  at: instant.optional(),
  ...doneShape,
  by: who,
  reason: why,
  revision: seenRevision,
});

/** The same as another program sends it: it must say what it has seen, or it could undo what somebody else has put right. */
export const sentCorrectionSchema = cleaningCorrectionSchema
  .extend({
    revision: z.int().min(0).meta({ description: 'The revision that it was seen in: refused in another' }),
  })
  .meta({ id: 'CleaningCorrection' });

export type CleaningCorrection = z.infer<typeof cleaningCorrectionSchema>;

export const CLEANING_CHANGES = ['corrected', 'withdrawn'] as const;

const stated = {
  at: z.string(),
  method: z.string().nullable(),
  cost: z.number().nullable(),
  duration: z.number().nullable().meta({ description: 'Seconds' }),
  note: z.string().nullable(),
};

/** The cleanings recorded of a unit, oldest first, and what they were before people changed or withdrew them. */
export const cleaningsSchema = z
  .object({
    tag: z.string(),
    cleanings: z.array(
      z.object({
        id: z.int(),
        ...stated,
        revision: z.int().meta({ description: 'Grows with every correction' }),
      }),
    ),
    changes: z.array(
      z.object({
        cleaning: z.int().meta({ description: 'Number of the cleaning that stood like this' }),
        ...stated,
        kind: z.enum(CLEANING_CHANGES),
        by: z.string().nullable(),
        reason: z.string().nullable(),
        changedAt: z.string(),
      }),
    ),
  })
  .meta({ id: 'Cleanings' });

export type Cleanings = z.infer<typeof cleaningsSchema>;

/** A recorded cleaning as it stood before a change. Instants are ms since 1970. */
export type CleaningChangeRecord = {
  cleaning: number;
  at: number;
  durationMs: number | null;
  method: string | null;
  cost: number | null;
  note: string | null;
  kind: (typeof CLEANING_CHANGES)[number];
  by: string | null;
  reason: string | null;
  changedAt: number;
};
