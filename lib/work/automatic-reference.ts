import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import { WORKED_OUT_AUTOMATICALLY } from '@/lib/contract/clean-references';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import { type CleanFactors, scaledFactors } from '@/lib/core/clean/clean-reference';
import {
  LEARNING_DAYS,
  LEARNING_WINDOW_MS,
  type LearnedScale,
  learnScale,
} from '@/lib/core/clean/learn-scale';
import { basisAt, evaluateOver } from '@/lib/core/fouling/evaluate-over';
import { formatDay } from '@/lib/report/format/time';
import { addReference, listReferences } from '@/lib/store/entities/references';
import type { StoredUnit, StoredVersion } from '@/lib/store/entities/units';
import { DAY_MS } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import type { Context } from './context';
import { datasheetBases } from './unit-bases';

export type AutomaticInput = {
  versions: StoredVersion[];
  /** Instants of the cleanings [ms], ascending. */
  cleanings: number[];
  judged: JudgedPeriod[];
  nominal: number;
  /** Readings before this instant are used [ms]. */
  end: number;
  /** True where an accepted reference must not be written: results as of a past day. */
  isPast: boolean;
};

/** References that hold for a unit, and the factors that hold where none does because they are still being learned. */
export type HeldReferences = { references: CleanReferenceRecord[]; provisional: CleanFactors | null };

/**
 * The clean references a unit's results are made with. A person's acceptance holds before everything else. Until there is
 * one, a unit whose datasheet says "learned" takes its own: one factor from the days after a cleaning, kept as a reference
 * once those days are over, and as a further one when late data changes it.
 */
export async function heldReferences(
  context: Context,
  stored: StoredUnit,
  input: AutomaticInput,
): Promise<HeldReferences> {
  const all = (await listReferences(context.store.entities, stored.id)).filter(
    ({ evidence }) => evidence === null || evidence.to < input.end,
  );
  if (stored.unit.clean !== 'learned' || all.some((reference) => !isAutomatic(reference))) {
    return { references: holding(all, stored), provisional: null };
  }
  const automatic = all.findLast(isAutomatic) ?? null;
  const found = await learnAutomatically(context, stored, input);
  if (found === null) return { references: [], provisional: null };
  const factors = scaledFactors(found.learned.scale);
  if (!found.isComplete) return { references: [], provisional: factors };
  if (automatic !== null && automatic.factors.hot === factors.hot) {
    return { references: [automatic], provisional: null };
  }
  if (input.isPast) return { references: [], provisional: factors };
  const written = await writeAutomatic(context, stored, { found, versions: input.versions });
  return written === null
    ? { references: [], provisional: factors }
    : { references: [written], provisional: null };
}

/**
 * Those of a unit's references that count once a person has accepted one: before it, what the unit last worked out itself
 * holds on where its datasheet still says "learned".
 */
export function holding(all: readonly CleanReferenceRecord[], { unit }: StoredUnit): CleanReferenceRecord[] {
  const accepted = all.filter((reference) => !isAutomatic(reference));
  const automatic = unit.clean === 'learned' ? all.findLast(isAutomatic) : undefined;
  return automatic === undefined ? accepted : [automatic, ...accepted];
}

/** Whether nobody accepted it. */
export function isAutomatic({ acceptedBy }: Pick<CleanReferenceRecord, 'acceptedBy'>): boolean {
  return acceptedBy === WORKED_OUT_AUTOMATICALLY;
}

type Found = {
  learned: LearnedScale;
  /** The cleaning it follows [ms]; null: the beginning of the record. */
  cleaning: number | null;
  /** Whether the days it is learned from are over. */
  isComplete: boolean;
};

/** One factor from the days after the first cleaning that can teach it; null where none can yet. */
async function learnAutomatically(
  context: Context,
  stored: StoredUnit,
  { versions, cleanings, judged, nominal, end }: AutomaticInput,
): Promise<Found | null> {
  const { series } = context.store;
  const span = await series.readingSpan(stored.id);
  if (span === null) return null;
  const bases = datasheetBases(versions);
  const starts = cleanings.length > 0 ? cleanings : [span.first];
  for (const start of starts) {
    const readings = await series.readReadings(stored.id, start, Math.min(end, start + LEARNING_WINDOW_MS));
    const cleaning = cleanings.length > 0 ? start : null;
    const evaluation = evaluateOver(bases, readings, { nominal, judged });
    const learned = learnScale(evaluation, cleaning === null ? [] : [cleaning]);
    if (learned === null) continue;
    const newest = Math.min(span.last, end);
    return { learned, cleaning, isComplete: newest >= learned.from + LEARNING_DAYS * DAY_MS };
  }
  return null;
}

/** Writes it under the next number; null where another process wrote one at the same time, whose turn it then is. */
async function writeAutomatic(
  context: Context,
  stored: StoredUnit,
  { found, versions }: { found: Found; versions: StoredVersion[] },
): Promise<CleanReferenceRecord | null> {
  const { entities } = context.store;
  const { learned, cleaning } = found;
  const { timeZone } = stored.site;
  const numbers = (await listReferences(entities, stored.id)).map(({ number }) => number);
  const after =
    cleaning === null
      ? 'of the first days of the record'
      : `after the cleaning of ${formatDay(localDay(cleaning, timeZone))}`;
  const reference: CleanReferenceRecord = {
    number: Math.max(0, ...numbers) + 1,
    from: null,
    method: 'scale',
    unitVersion: basisAt(datasheetBases(versions), learned.from).unitVersion,
    factors: scaledFactors(learned.scale),
    uncertainty: { hot: learned.uncertainty, cold: learned.uncertainty },
    evidence: { from: learned.from, to: learned.to, readings: learned.readings },
    acceptedBy: WORKED_OUT_AUTOMATICALLY,
    reason: `median of ${learned.readings} readings ${after}`,
    acceptedAt: context.now(),
  };
  return (await addReference(entities, stored.id, reference)) ? reference : null;
}
