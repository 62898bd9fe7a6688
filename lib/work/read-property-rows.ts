import { z } from 'zod';
import type { PropertyRows } from '@/lib/contract/property-rows';
import { readPropertyRows as read } from '@/lib/ingest/read-property-rows';

/** Characters of the longest table anybody pastes by hand. */
const MOST_CHARACTERS = 100_000;
const textSchema = z.string().max(MOST_CHARACTERS);

/** The rows of a fluid table as pasted into a form; nothing is stored. What cannot be read is told by row and column. */
export function readPropertyRows(text: unknown): PropertyRows {
  const parsed = textSchema.safeParse(text);
  if (parsed.success) return read(parsed.data);
  const fault = `The text has more than ${MOST_CHARACTERS} characters: paste the rows of one table`;
  return { rows: [], units: {}, skipped: [], faults: [fault] };
}
