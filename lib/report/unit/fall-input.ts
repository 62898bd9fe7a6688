import { AppError } from '@/lib/contract/app-error';
import { type FallAnswerRequest, fallAnswerRequestSchema } from '@/lib/contract/fall-answers';
import { faultsOf } from '@/lib/contract/faults';
import { faultsIn, readCost, readLocalTime, textOrNull } from './form-fields';

/**
 * Reads the answer to a fall of the fouling; when it was cleaned is local time of the site, and may stay open.
 *
 * @throws AppError 'invalid-input' naming each field
 */
export function readFallForm(fields: Record<string, string>, timeZone: string): FallAnswerRequest {
  const isCleaning = fields.answer === 'cleaning';
  const at =
    isCleaning && textOrNull(fields.at) !== null
      ? readLocalTime(fields.at, { field: 'at', timeZone })
      : { value: null, fault: null };
  const cost = readCost(isCleaning ? fields.cost : '', 'cost');
  const parsed = fallAnswerRequestSchema.safeParse({
    day: fields.day ?? '',
    answer: fields.answer,
    isFirst: true,
    note: textOrNull(fields.note),
    at: at.value === null ? null : new Date(at.value).toISOString(),
    method: isCleaning ? textOrNull(fields.method) : null,
    cost: cost.value,
  });
  const faults = [...faultsIn(at, cost), ...(parsed.success ? [] : faultsOf(parsed.error))];
  if (parsed.success && faults.length === 0) return parsed.data;
  throw new AppError('invalid-input', 'The answer was not taken', faults);
}
