import { z } from 'zod';
import { onlyKnown } from './only-known';
import { type Withdrawn, who, withdrawnSchema } from './withdrawal';

export const FALL_ANSWERS = ['cleaning', 'not-cleaning'] as const;
export type FallAnswer = (typeof FALL_ANSWERS)[number];

/** A person's answer to a fall of the fouling that nobody recorded a cleaning for. */
export const fallAnswerRequestSchema = onlyKnown({
  day: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/, 'write it as YYYY-MM-DD')
    .meta({ description: 'First day after the fall, as the probable cleaning states it' }),
  answer: z.enum(FALL_ANSWERS),
  by: who,
  isFirst: z.boolean().optional().meta({ description: 'True: refused where somebody has answered already' }),
  note: z.string().trim().max(500).nullish(),
  at: z.iso
    .datetime({
      offset: true,
      error: 'write it as ISO 8601 with offset, such as 2026-05-04T08:00:00+01:00',
    })
    .nullish()
    .meta({ description: 'When it was cleaned, where known; else the middle of the gap in the readings' }),
  method: z.string().trim().max(120).nullish(),
  cost: z.number().min(0).nullish(),
}).meta({ id: 'FallAnswer' });

export type FallAnswerRequest = z.infer<typeof fallAnswerRequestSchema>;

/** Falls of a unit that nobody has explained yet, and every answer ever given, oldest first. */
export const fallsSchema = z
  .object({
    tag: z.string(),
    probableCleanings: z.array(
      z.object({
        day: z.string(),
        lastBefore: z.string().meta({ description: 'Last accepted reading before the fall' }),
        firstAfter: z.string().meta({ description: 'First accepted reading after it' }),
        before: z.number(),
        after: z.number(),
        fallUncertainty: z.number(),
        share: z.number().nullable(),
      }),
    ),
    answers: z.array(
      z.object({
        id: z.int(),
        day: z.string(),
        answer: z.enum(FALL_ANSWERS),
        note: z.string().nullable(),
        by: z.string(),
        givenAt: z.string(),
        cleaning: z.int().nullable().meta({ description: 'Number of the cleaning recorded with it' }),
        withdrawn: withdrawnSchema,
      }),
    ),
  })
  .meta({ id: 'Falls', description: 'Fouling resistance in m2.K/W, share of the allowance as a fraction' });

export type Falls = z.infer<typeof fallsSchema>;

/**
 * An answer as it is kept; the last one about a day that was not withdrawn holds. `day` in days since 1970-01-01, instants
 * in ms; `cleaning` is the number of the cleaning recorded with it.
 */
export type FallAnswerRecord = {
  id: number;
  day: number;
  answer: FallAnswer;
  note: string | null;
  by: string;
  givenAt: number;
  cleaning: number | null;
  withdrawn: Withdrawn | null;
};
