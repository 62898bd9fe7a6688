import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type Withdrawal, withdrawalSchema } from '@/lib/contract/withdrawal';
import { revisionOf } from './form-fields';

/** What of a unit can be withdrawn. */
export const WITHDRAWABLE = ['verdict', 'answer', 'cleaning'] as const;
export type Withdrawable = (typeof WITHDRAWABLE)[number];

/** Reads the form that takes something back. @throws AppError 'invalid-input' naming each field */
export function readWithdrawal(
  fields: Record<string, string>,
): Withdrawal & { kind: Withdrawable; id: number } {
  const kind = WITHDRAWABLE.find((name) => name === fields.kind);
  const parsed = withdrawalSchema.safeParse({ note: fields.note ?? '', revision: revisionOf(fields) });
  if (kind !== undefined && parsed.success) return { ...parsed.data, kind, id: Number(fields.id) };
  const faults = parsed.success
    ? [{ field: 'kind', message: `must be one of ${WITHDRAWABLE.join(', ')}` }]
    : faultsOf(parsed.error);
  throw new AppError('invalid-input', 'Nothing was withdrawn', faults);
}
