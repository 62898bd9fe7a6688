import { AppError } from '@/lib/contract/app-error';
import type {
  CleanReferenceRecord,
  CleanReferences,
  ReferenceAcceptance,
} from '@/lib/contract/clean-references';
import type { ProposedReference } from '@/lib/report/records';
import { doubtsInWords, refusalInWords } from '@/lib/report/reference/learning-words';
import type { Making } from '@/lib/store/entities/change';
import { addReference, listReferences } from '@/lib/store/entities/references';
import { findUnit, type StoredUnit } from '@/lib/store/entities/units';
import { analyse } from './analyse';
import { isAutomatic } from './automatic-reference';
import { changing } from './changing';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { proposeReference } from './propose-reference';
import { showReferences } from './read-reference';

/**
 * Accepts a clean reference: writes it beside the earlier ones, which stay, and brings the unit's results up to date.
 *
 * @throws AppError 'not-found' for an unknown tag, 'invalid-input' where the method gives no factors, 'conflict' where
 *   somebody else has accepted one since
 */
export async function acceptReference(
  context: Context,
  tag: string,
  acceptance: ReferenceAcceptance,
): Promise<CleanReferenceRecord> {
  const proposed = await proposeReference(context, tag, acceptance);
  refuseUnlearned(proposed);
  const stored = (await findUnit(context.store.entities, tag))!;
  const reference = await changing(context, acceptance.acceptedBy, (making) =>
    write(making, stored, { acceptance, proposed }),
  );
  if (reference === null) throw await acceptedMeanwhile(context, stored);
  await analyse(context, { tag });
  return reference;
}

/** Accepts one for another program, which is answered with all of them. */
export async function takeReference(
  context: Context,
  tag: string,
  acceptance: ReferenceAcceptance,
): Promise<CleanReferences> {
  await acceptReference(context, tag, acceptance);
  return showReferences(context, tag);
}

function refuseUnlearned({ learned }: ProposedReference): void {
  if (learned.refusal === null) return;
  const message = [refusalInWords(learned.refusal), ...doubtsInWords(learned)].join(' ');
  throw new AppError('invalid-input', 'This clean reference cannot be accepted', [
    { field: 'method', message },
  ]);
}

/** Writes it under the next number; null where somebody else has accepted one since. */
async function write(
  making: Making,
  { id, tag }: StoredUnit,
  { acceptance, proposed }: { acceptance: ReferenceAcceptance; proposed: ProposedReference },
): Promise<CleanReferenceRecord | null> {
  const { learned, method, from, unitVersion } = proposed;
  const before = await listReferences(making.transaction, id);
  if (before.some((one) => one.number > acceptance.after && !isAutomatic(one))) return null;
  const reference: CleanReferenceRecord = {
    number: (before.at(-1)?.number ?? 0) + 1,
    from,
    method,
    unitVersion,
    factors: learned.factors!,
    uncertainty: learned.uncertainty,
    evidence: learned.evidence,
    acceptedBy: making.by,
    reason: acceptance.reason,
    acceptedAt: making.at,
  };
  await addReference(making.transaction, id, reference);
  await making.record({
    subject: 'reference',
    name: tag,
    action: 'accepted',
    before: shown(before.findLast((one) => !isAutomatic(one)) ?? null),
    after: shown(reference),
    note: acceptance.reason,
  });
  await making.markDue(id, 0);
  return reference;
}

/** A reference as a record shows it. */
function shown(reference: CleanReferenceRecord | null) {
  if (reference === null) return null;
  const { number, from, method, factors } = reference;
  return { number, from: from === null ? null : new Date(from).toISOString(), method, factors };
}

function acceptedMeanwhile(context: Context, { tag, site }: StoredUnit): Promise<AppError> {
  return editConflict(context, {
    what: `The clean reference of ${tag}`,
    timeZone: site.timeZone,
    changes: { subjects: ['reference'], name: tag },
    field: 'after',
  });
}
