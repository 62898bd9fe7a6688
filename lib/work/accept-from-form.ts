import { AppError } from '@/lib/contract/app-error';
import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import { referenceAcceptanceSchema } from '@/lib/contract/clean-references';
import { faultsOf } from '@/lib/contract/faults';
import { proposalOf, readReferenceEntries } from '@/lib/report/reference/reference-entries';
import { findUnit } from '@/lib/store/entities/units';
import { acceptReference } from './accept-reference';
import type { Context } from './context';

/**
 * Accepts a reference from the fields of the page's form; times are local times of the unit's site.
 *
 * @throws AppError 'not-found', 'invalid-input' naming each field, 'conflict'
 */
export async function acceptFromForm(
  context: Context,
  fields: Record<string, string>,
): Promise<CleanReferenceRecord> {
  const tag = fields.tag ?? '';
  const stored = await findUnit(context.store.entities, tag);
  if (stored === null) throw new AppError('not-found', `There is no unit "${tag}"`);
  const { proposal, faults } = proposalOf(readReferenceEntries(fields), stored.site.timeZone);
  const { reason, after } = fields;
  const parsed = referenceAcceptanceSchema.safeParse({
    ...proposal,
    reason,
    after: Number(after),
  });
  if (faults.length > 0 || !parsed.success) {
    const all = [...faults, ...(parsed.success || proposal === null ? [] : faultsOf(parsed.error))];
    throw new AppError('invalid-input', 'The reference was not accepted', all);
  }
  return acceptReference(context, tag, parsed.data);
}
