import { InvalidArgumentError } from 'commander';
import type { z } from 'zod';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';

/**
 * What the options of a verb state, checked by the schema that the HTTP API checks with.
 *
 * @throws AppError 'invalid-input' naming each option
 */
export function stated<Schema extends z.ZodType>(schema: Schema, document: unknown): z.output<Schema> {
  const parsed = schema.safeParse(document);
  if (parsed.success) return parsed.data;
  throw new AppError('invalid-input', 'Nothing was stored', faultsOf(parsed.error));
}

/** A number written in an option; NaN where it is none, null where nothing was written. */
export function numberOrNull(text: string | undefined): number | null {
  return text === undefined ? null : Number(text);
}

/** A whole number from 1 as an argument gives it; anything else is wrong usage. */
export function wholeNumber(text: string): number {
  if (/^[1-9]\d{0,14}$/.test(text)) return Number(text);
  throw new InvalidArgumentError('It is no number.');
}
