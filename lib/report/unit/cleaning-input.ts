import { AppError } from '@/lib/contract/app-error';
import { localInstant } from '@/lib/time/local-instant';

/** A cleaning as the form gives it, ready to be recorded; `at` in ms. */
export type CleaningInput = { at: number; method: string | null; cost: number | null; note: string | null };

/**
 * Reads the form's fields; the time is local time of the site.
 *
 * @throws AppError 'invalid-input' naming the field: a local time that occurs twice or never is not guessed
 */
export function readCleaningForm(
  fields: Record<string, string>,
  { timeZone, now }: { timeZone: string; now: number },
): CleaningInput {
  const at = instantOf(fields.at ?? '', timeZone);
  if (at > now) throw refused('at', 'it lies in the future; record a cleaning once it is done');
  return { at, method: textOrNull(fields.method), cost: costOf(fields.cost), note: textOrNull(fields.note) };
}

function instantOf(text: string, timeZone: string): number {
  const instant = localInstant(text, timeZone);
  if (instant === 'no-time') throw refused('at', 'give day and time, such as 2026-05-04 08:00');
  if (instant === 'twice-or-never') {
    throw refused(
      'at',
      `this local time occurs twice or never in ${timeZone} (the clocks change); give one an hour away`,
    );
  }
  return instant;
}

function costOf(text: string | undefined): number | null {
  const written = (text ?? '').trim().replace(',', '.');
  if (written === '') return null;
  const cost = Number(written);
  if (!Number.isFinite(cost) || cost < 0)
    throw refused('cost', 'write the cost as a plain number, such as 4000');
  return cost;
}

function textOrNull(text: string | undefined): string | null {
  const trimmed = (text ?? '').trim();
  return trimmed === '' ? null : trimmed;
}

function refused(field: string, message: string): AppError {
  return new AppError(
    'invalid-input',
    field === 'at' ? 'The time of the cleaning cannot be taken' : 'The cost cannot be taken',
    [{ field, message }],
  );
}
