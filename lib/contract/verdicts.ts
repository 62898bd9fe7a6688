import { z } from 'zod';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import { onlyKnown } from './only-known';
import { type Withdrawn, who, why, withdrawnSchema } from './withdrawal';

const instant = z.iso.datetime({
  offset: true,
  error: 'write it as ISO 8601 with offset, such as 2026-05-04T08:00:00+01:00',
});

export const VERDICTS = ['include', 'exclude'] as const;

/** A person's word on the readings of a period. */
export const verdictRequestSchema = onlyKnown({
  from: instant,
  to: instant,
  verdict: z.enum(VERDICTS),
  note: why,
  by: who,
})
  .refine(({ from, to }) => Date.parse(from) < Date.parse(to), {
    path: ['to'],
    message: 'must lie after "from"',
  })
  .meta({
    id: 'VerdictRequest',
    description:
      'Leaves the readings of a period out, or counts them in where they can be used; `to` excluded',
  });

export type VerdictRequest = z.infer<typeof verdictRequestSchema>;

/** Every verdict a unit ever had, oldest first; of two that overlap the later holds. */
export const verdictsSchema = z
  .object({
    tag: z.string(),
    verdicts: z.array(
      z.object({
        id: z.int(),
        from: z.string(),
        to: z.string(),
        verdict: z.enum(VERDICTS),
        note: z.string(),
        by: z.string(),
        givenAt: z.string(),
        withdrawn: withdrawnSchema,
      }),
    ),
  })
  .meta({ id: 'Verdicts' });

export type Verdicts = z.infer<typeof verdictsSchema>;

/** A verdict as it is kept. Instants are ms since 1970; `withdrawn` is null while it holds. */
export type VerdictRecord = JudgedPeriod & {
  id: number;
  note: string;
  by: string;
  givenAt: number;
  withdrawn: Withdrawn | null;
};
