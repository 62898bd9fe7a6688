import { AppError } from '@/lib/contract/app-error';
import { faultsIn, readCost, readLocalTime, textOrNull } from './form-fields';

/** A cleaning as the form gives it, ready to be recorded; `at` in ms. */
export type CleaningInput = { at: number; method: string | null; cost: number | null; note: string | null };

/**
 * Reads the form's fields; the time is local time of the site.
 *
 * @throws AppError 'invalid-input' naming each field: a local time that occurs twice or never is not guessed
 */
export function readCleaningForm(
  fields: Record<string, string>,
  { timeZone, now }: { timeZone: string; now: number },
): CleaningInput {
  const at = readLocalTime(fields.at, { field: 'at', timeZone });
  const cost = readCost(fields.cost, 'cost');
  const faults = faultsIn(at, cost);
  if (at.value !== null && at.value > now)
    faults.push({ field: 'at', message: 'it lies in the future; record a cleaning once it is done' });
  if (at.value === null || faults.length > 0)
    throw new AppError('invalid-input', 'The cleaning cannot be taken', faults);
  return { at: at.value, method: textOrNull(fields.method), cost: cost.value, note: textOrNull(fields.note) };
}
