import type { z } from 'zod';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type WorkDone, type WorkMove, workDoneSchema, workMoveSchema } from '@/lib/contract/planned';
import { faultsIn, readCost, readLocalTime, revisionOf, textOrNull } from '@/lib/report/unit/form-fields';

type Fields = Record<string, string>;

/**
 * Reads the form that marks work done; the time is local time of the site.
 *
 * @throws AppError 'invalid-input' naming each field
 */
export function readDoneForm(fields: Fields, timeZone: string): WorkDone {
  const at = readLocalTime(fields.at, { field: 'at', timeZone });
  const cost = readCost(fields.cost, 'cost');
  const hours = textOrNull(fields.duration)?.replace(',', '.') ?? null;
  const given = {
    at: at.value === null ? undefined : new Date(at.value).toISOString(),
    method: textOrNull(fields.method),
    cost: cost.value,
    duration: hours === null ? null : { value: Number(hours), unit: 'h' },
    note: textOrNull(fields.note),
    revision: revisionOf(fields),
  };
  return checked(workDoneSchema, given, faultsIn(at, cost));
}

/** Reads the form that moves work. @throws AppError 'invalid-input' naming each field */
export function readMoveForm(fields: Fields, timeZone: string): WorkMove {
  const from = readLocalTime(fields.from, { field: 'from', timeZone });
  const given = {
    from: from.value === null ? undefined : new Date(from.value).toISOString(),
    reason: fields.reason ?? '',
    revision: revisionOf(fields),
  };
  return checked(workMoveSchema, given, faultsIn(from));
}

/** What a form gives, checked. @throws AppError 'invalid-input' naming each field */
export function checked<Schema extends z.ZodType>(
  schema: Schema,
  given: unknown,
  faults: AppError['faults'] = [],
): z.output<Schema> {
  const parsed = schema.safeParse(given);
  if (parsed.success && faults.length === 0) return parsed.data;
  const named = new Set(faults.map(({ field }) => field));
  const others = parsed.success ? [] : faultsOf(parsed.error).filter(({ field }) => !named.has(field));
  throw new AppError(
    'invalid-input',
    'The work was not changed',
    [...faults, ...others].map((fault) => ({ ...fault, field: fault.field.split('.')[0]! })),
  );
}
