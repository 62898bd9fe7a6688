import { AppError } from '@/lib/contract/app-error';
import { type CleaningCorrection, cleaningCorrectionSchema } from '@/lib/contract/cleaning-request';
import { faultsOf } from '@/lib/contract/faults';
import { faultsIn, readCost, readLocalTime, revisionOf, textOrNull } from './form-fields';

/**
 * Reads the form that corrects a recorded cleaning; its fields hold everything there is to correct but the duration.
 *
 * @throws AppError 'invalid-input' naming each field
 */
export function readCleaningCorrection(
  fields: Record<string, string>,
  timeZone: string,
): CleaningCorrection & { id: number } {
  const at = readLocalTime(fields.at, { field: 'at', timeZone });
  const cost = readCost(fields.cost, 'cost');
  const parsed = cleaningCorrectionSchema.safeParse({
    at: at.value === null ? undefined : new Date(at.value).toISOString(),
    method: textOrNull(fields.method),
    cost: cost.value,
    note: textOrNull(fields.note),
    reason: fields.reason ?? '',
    revision: revisionOf(fields),
  });
  const faults = [...faultsIn(at, cost), ...(parsed.success ? [] : faultsOf(parsed.error))];
  if (parsed.success && faults.length === 0) return { ...parsed.data, id: Number(fields.id) };
  throw new AppError('invalid-input', 'The cleaning was not corrected', faults);
}
