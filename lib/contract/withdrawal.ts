import { z } from 'zod';
import { onlyKnown } from './only-known';

/** For whom a program acts; a person who is signed in acts under the name of the account, whatever is stated here. */
export const who = z
  .string()
  .trim()
  .min(1, 'leave it out, or give a name')
  .max(80)
  .nullish()
  .meta({ description: 'For whom a program acts; somebody signed in acts under the own name' });

/** Why: whatever people state is kept with its reason. */
export const why = z.string().trim().min(1, 'say why').max(500);

/** In which state somebody saw a thing: a change is refused where it is in another one by now. Left out: whichever it is in. */
export const seenRevision = z.int().min(0).optional();

/** Takes back what a person stated; it stays in the history. */
export const withdrawalSchema = onlyKnown({
  note: why,
  by: who,
  revision: seenRevision.meta({ description: 'Of a cleaning: the revision that it was seen in' }),
}).meta({ id: 'Withdrawal' });

export type Withdrawal = z.infer<typeof withdrawalSchema>;

/** That something was withdrawn, as the API gives it; null while it holds. */
export const withdrawnSchema = z.object({ at: z.string(), by: z.string(), note: z.string() }).nullable();

/** The same as it is kept; `at` in ms since 1970. */
export type Withdrawn = { at: number; by: string; note: string };
