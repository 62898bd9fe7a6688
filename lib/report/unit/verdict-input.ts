import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type VerdictRequest, verdictRequestSchema } from '@/lib/contract/verdicts';
import { faultsIn, readLocalTime } from './form-fields';

/** Stands for a time that could not be read: a fault of its own says so. */
const UNREAD = '1970-01-01T00:00:00Z';

/**
 * Reads the form that judges a period; its times are local times of the site.
 *
 * @throws AppError 'invalid-input' naming each field: a local time that occurs twice or never is not guessed
 */
export function readVerdictForm(fields: Record<string, string>, timeZone: string): VerdictRequest {
  const from = readLocalTime(fields.from, { field: 'from', timeZone });
  const to = readLocalTime(fields.to, { field: 'to', timeZone });
  const faults = faultsIn(from, to);
  const parsed = verdictRequestSchema.safeParse({
    from: isoOf(from.value),
    to: isoOf(to.value),
    verdict: fields.verdict,
    note: fields.note ?? '',
  });
  const named = new Set(faults.map(({ field }) => field));
  const others = parsed.success ? [] : faultsOf(parsed.error).filter(({ field }) => !named.has(field));
  // Whether one time lies after the other can only be said of two times.
  const said = faults.length > 0 ? others.filter(({ field }) => field !== 'to') : others;
  if (parsed.success && faults.length === 0) return parsed.data;
  throw new AppError('invalid-input', 'The period was not judged', [...faults, ...said]);
}

function isoOf(instant: number | null): string {
  return instant === null ? UNREAD : new Date(instant).toISOString();
}
