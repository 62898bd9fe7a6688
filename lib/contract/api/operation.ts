import type { z } from 'zod';
import type { ErrorCode } from '../app-error';

/** Parts of the interface, in the order they are read. */
export const GROUPS = [
  'Readings in',
  'Results',
  'Units',
  'Cleanings',
  'Judgement',
  'Plan',
  'Costs and prices',
  'Review',
  'Changes',
  'This interface',
] as const;

/** Media type → schema of the document; null for bytes that are none. */
export type Content = Record<string, z.ZodType | null>;

/** What one method at one path takes and answers. */
export type Operation = {
  group: (typeof GROUPS)[number];
  summary: string;
  details?: string;
  query?: z.ZodType;
  body?: Content;
  answer: Content;
  /** Refusals beside those that any operation of its kind can answer with. */
  errors?: ErrorCode[];
};

const JSON_TYPE = 'application/json';
export const CSV_TYPE = 'text/csv';

/** A JSON document of a schema. */
export function json(schema: z.ZodType): Content {
  return { [JSON_TYPE]: schema };
}
