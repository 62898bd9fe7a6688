import { z } from 'zod';
import { faultsOf, isOnlyUnknownFields } from '@/lib/contract/faults';
import type { Finding, Invariant } from './finding';

/**
 * Stored JSON that must be what the contract says.
 *
 * @param rows SQL of the documents: `label` says whose each is
 */
export function documentInvariant({
  name,
  tables,
  rows,
  things,
  schema,
}: {
  name: string;
  tables: readonly string[];
  rows: string;
  things: string;
  schema: z.ZodType;
}): Invariant {
  return {
    name,
    tables,
    look: (database): Finding => {
      let count = 0;
      const problems: string[] = [];
      const statement = database.prepare<[], { label: string; document: string }>(rows);
      for (const { label, document } of statement.iterate()) {
        count++;
        const problem = problemOf(document, schema);
        if (problem !== null) problems.push(`${label}: ${problem}`);
      }
      return { looked: `${count} ${things}`, problems };
    },
  };
}

function problemOf(document: string, schema: z.ZodType): string | null {
  let value: unknown;
  try {
    value = JSON.parse(document);
  } catch {
    return 'no JSON';
  }
  const parsed = schema.safeParse(value);
  if (parsed.success) return null;
  // A field that nobody knows any more does no harm where it is kept: only what comes in is refused for one.
  const issues = parsed.error.issues.filter((issue) => !isOnlyUnknownFields(issue));
  if (issues.length === 0) return null;
  const [fault] = faultsOf(new z.ZodError(issues));
  return `${fault?.field}: ${fault?.message}`;
}
