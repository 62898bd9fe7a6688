import { AppError, type Fault } from '@/lib/contract/app-error';
import type {
  CleanReferencePreview,
  CleanReferences,
  ReferenceProposal,
} from '@/lib/contract/clean-references';
import type { ProposedReference, ReferenceRecords } from '@/lib/report/records';
import { proposalOf, type ReferenceEntries } from '@/lib/report/reference/reference-entries';
import { cleanReferencePreview, cleanReferences } from '@/lib/report/reference/references-result';
import { findResult } from '@/lib/store/entities/results';
import { findUnit } from '@/lib/store/entities/units';
import type { Context } from './context';
import { proposeReference, usualPeriod } from './propose-reference';
import { readUnit } from './read-unit';
import { filmSensitivity } from './reference-sensitivity';

const NO_READINGS = { from: 0, to: -1 };

/** Everything the page of the clean reference shows; what was asked for is worked out, not stored. Null for an unknown tag. */
export async function readReference(
  context: Context,
  tag: string,
  entries: ReferenceEntries,
): Promise<ReferenceRecords | null> {
  const { entities, series } = context.store;
  const [stored, unit] = await Promise.all([findUnit(entities, tag), readUnit(context, tag, NO_READINGS)]);
  if (stored === null || unit === null) return null;
  const [known, span] = await Promise.all([findResult(entities, stored.id), series.readingSpan(stored.id)]);
  const cleanings = unit.cleanings.map(({ at }) => at);
  const sensitivity =
    known === null ? null : await filmSensitivity(context, stored, { known, versions: unit.versions });
  return {
    ...unit,
    sensitivity,
    entries,
    usualPeriod: span === null ? null : usualPeriod(span, cleanings),
    ...(await proposed(context, tag, { entries, timeZone: stored.site.timeZone })),
  };
}

async function proposed(
  context: Context,
  tag: string,
  { entries, timeZone }: { entries: ReferenceEntries; timeZone: string },
): Promise<{ proposed: ProposedReference | null; faults: Fault[] }> {
  const { proposal, faults } = proposalOf(entries, timeZone);
  if (proposal === null) return { proposed: null, faults };
  try {
    return { proposed: await proposeReference(context, tag, proposal), faults: [] };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    return { proposed: null, faults: error.faults };
  }
}

/** What a clean reference would be, and would change. @throws AppError 'not-found', 'invalid-input' */
export async function previewReference(
  context: Context,
  tag: string,
  proposal: ReferenceProposal,
): Promise<CleanReferencePreview> {
  const proposed = await proposeReference(context, tag, proposal);
  const stored = await findUnit(context.store.entities, tag);
  return cleanReferencePreview(proposed, stored!.site.timeZone);
}

/** Clean references of a unit and what its results were judged by. @throws AppError 'not-found' for an unknown tag */
export async function showReferences(context: Context, tag: string): Promise<CleanReferences> {
  const unit = await readUnit(context, tag, NO_READINGS);
  if (unit === null) throw new AppError('not-found', `There is no unit "${tag}"`);
  return cleanReferences(unit);
}
