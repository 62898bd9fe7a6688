import { z } from 'zod';

/** Who says something, and why: whatever people state is kept under their name. */
export const who = z.string().trim().min(1, 'say who you are').max(80);
export const why = z.string().trim().min(1, 'say why').max(500);

/** Takes back what a person stated; it stays in the history. */
export const withdrawalSchema = z.object({ note: why, by: who }).meta({ id: 'Withdrawal' });

export type Withdrawal = z.infer<typeof withdrawalSchema>;

/** That something was withdrawn, as the API gives it; null while it holds. */
export const withdrawnSchema = z.object({ at: z.string(), by: z.string(), note: z.string() }).nullable();

/** The same as it is kept; `at` in ms since 1970. */
export type Withdrawn = { at: number; by: string; note: string };
