import type { PrismaClient } from '@/generated/postgres/client';

type Args = Record<string, unknown>;

/** Words by which Prisma looks for a part of a text. */
const PARTS = ['contains', 'startsWith', 'endsWith'];

/**
 * The same client, which looks for parts of texts as SQLite does: capitals are the same as small letters, and a backslash is
 * nothing but a backslash. Only the record of changes is looked through in that way.
 */
export function matchingLikeSqlite(entities: PrismaClient): PrismaClient {
  const extended = entities.$extends({
    query: { changeRecord: { $allOperations: ({ args, query }) => query(loosely(args) as typeof args) } },
  });
  return extended as unknown as PrismaClient;
}

/** Conditions with every look for a part of a text made loose, however deep it lies. */
function loosely(conditions: unknown): unknown {
  if (Array.isArray(conditions)) return conditions.map(loosely);
  if (typeof conditions !== 'object' || conditions === null || conditions instanceof Date) return conditions;
  const entries = Object.entries(conditions as Args).map(([name, value]) => [
    name,
    PARTS.includes(name) && typeof value === 'string' ? value.replaceAll('\\', '\\\\') : loosely(value),
  ]);
  const loose = Object.fromEntries(entries) as Args;
  return PARTS.some((name) => typeof loose[name] === 'string') ? { ...loose, mode: 'insensitive' } : loose;
}
