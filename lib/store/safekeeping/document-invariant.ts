import { z } from 'zod';
import { faultsOf, isOnlyUnknownFields } from '@/lib/contract/faults';
import { type Invariant, rowInvariant } from './finding';

type Documents = {
  name: string;
  tables: readonly string[];
  /** SQL of the documents: `label` says whose each is. */
  rows: string;
  things: string;
  schema: z.ZodType;
};

/** Stored JSON that must be what the contract says. */
export function documentInvariant({ schema, ...documents }: Documents): Invariant {
  return rowInvariant({
    ...documents,
    problemOf: ({ label, document }) => {
      const problem = problemOf(String(document), schema);
      return problem === null ? null : `${label}: ${problem}`;
    },
  });
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
