import { z } from 'zod';

/** Days a token holds unless another number is chosen. */
export const USUAL_TOKEN_DAYS = 90;
export const MOST_TOKEN_DAYS = 3650;

const DAYS: Record<string, number> = { d: 1, w: 7, mo: 30, y: 365 };

/** How long a token holds: "90d", "12w", "6mo", "2y" in days; null for "never"; undefined where it cannot be read. */
export function tokenDays(text: string): number | null | undefined {
  const trimmed = text.trim().toLowerCase();
  if (trimmed === 'never') return null;
  const [, count, unit] = /^(\d{1,4})\s*(d|w|mo|y)?$/.exec(trimmed) ?? [];
  return count === undefined ? undefined : Number(count) * DAYS[unit ?? 'd']!;
}

/** A token that somebody asks for; `days` null holds until it is revoked. */
export const tokenRequestSchema = z.object({
  name: z.string().trim().min(1, 'say which program it is for').max(80),
  scopes: z.array(z.string()).min(1, 'choose at least one thing it may do'),
  days: z
    .int()
    .min(1)
    .max(MOST_TOKEN_DAYS)
    .nullable()
    .default(USUAL_TOKEN_DAYS)
    .meta({ description: 'Days it holds; null: until it is revoked' }),
});

export type TokenRequest = z.input<typeof tokenRequestSchema>;
