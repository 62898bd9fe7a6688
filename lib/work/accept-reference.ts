import { AppError } from '@/lib/contract/app-error';
import type {
  CleanReferenceRecord,
  CleanReferences,
  ReferenceAcceptance,
} from '@/lib/contract/clean-references';
import type { ProposedReference } from '@/lib/report/records';
import { doubtsInWords, refusalInWords } from '@/lib/report/reference/learning-words';
import { addReference, listReferences } from '@/lib/store/entities/references';
import { findUnit, type StoredUnit } from '@/lib/store/entities/units';
import { analyse } from './analyse';
import { isAutomatic } from './automatic-reference';
import type { Context } from './context';
import { proposeReference } from './propose-reference';
import { showReferences } from './read-reference';

/** Attempts to write under the next number while an analysis writes one of its own. */
const ATTEMPTS = 3;

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
  const reference = await write(context, stored, { acceptance, proposed });
  await context.store.series.markDue(stored.id, 0);
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

async function write(
  context: Context,
  stored: StoredUnit,
  { acceptance, proposed }: { acceptance: ReferenceAcceptance; proposed: ProposedReference },
): Promise<CleanReferenceRecord> {
  const { entities } = context.store;
  const { learned, method, from, unitVersion } = proposed;
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const before = await listReferences(entities, stored.id);
    const newer = before.find((one) => one.number > acceptance.after && !isAutomatic(one));
    if (newer !== undefined) throw conflict(stored.tag, newer.number);
    const reference: CleanReferenceRecord = {
      number: (before.at(-1)?.number ?? 0) + 1,
      from,
      method,
      unitVersion,
      factors: learned.factors!,
      uncertainty: learned.uncertainty,
      evidence: learned.evidence,
      acceptedBy: acceptance.acceptedBy,
      reason: acceptance.reason,
      acceptedAt: context.now(),
    };
    if (await addReference(entities, stored.id, reference)) return reference;
  }
  throw conflict(stored.tag, null);
}

function conflict(tag: string, number: number | null): AppError {
  const which = number === null ? 'a clean reference' : `clean reference ${number}`;
  return new AppError('conflict', `Somebody has accepted ${which} of ${tag} since you opened the page`, [
    { field: 'after', message: 'look at the newest one, then accept yours again if it is still wanted' },
  ]);
}
