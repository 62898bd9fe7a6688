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
import type { StoredUnit, StoredVersion } from '@/lib/store/entities/units';
import type { ReadingSpan, SeriesStore } from '@/lib/store/series/series-store';
import { DAY_MS } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { datasheetBases } from './unit-bases';

export type AutomaticInput = {
  /** Every clean reference of the unit, in the order they were accepted. */
  all: readonly CleanReferenceRecord[];
  versions: StoredVersion[];
  /** Instants of the cleanings [ms], ascending. */
  cleanings: number[];
  judged: JudgedPeriod[];
  nominal: number;
  /** First and last reading of the unit; null without any. */
  ends: ReadingSpan | null;
  /** Readings before this instant are used [ms]. */
  end: number;
  /** True where a learned reference must not be written: results as of a past day. */
  isPast: boolean;
  /** Clock [ms]. */
  now: number;
  /** Nothing that a reference is learned from has changed before this instant [ms]; null: everything may have. */
  changedFrom: number | null;
};

/** References that hold for a unit, and the factors that hold where none does because they are still being learned. */
export type HeldReferences = {
  references: CleanReferenceRecord[];
  provisional: CleanFactors | null;
  /** Among the references: one learned just now, to be written down. */
  learned: CleanReferenceRecord | null;
};

type Readings = Pick<SeriesStore, 'readReadings'>;

/**
 * The clean references a unit's results are made with. A person's acceptance holds before everything else. Until there is
 * one, a unit whose datasheet says "learned" takes its own: one factor from the days after a cleaning, kept as a reference
 * once those days are over, and as a further one when late data changes it.
 */
export async function heldReferences(
  series: Readings,
  stored: StoredUnit,
  input: AutomaticInput,
): Promise<HeldReferences> {
  const all = input.all.filter(({ evidence }) => evidence === null || evidence.to < input.end);
  if (stored.unit.clean !== 'learned' || all.some((reference) => !isAutomatic(reference))) {
    return { references: holding(all, stored), provisional: null, learned: null };
  }
  const automatic = all.findLast(isAutomatic) ?? null;
  if (automatic !== null && isUntouched(automatic, input)) return held(automatic);
  const found = await learnAutomatically(series, stored, input);
  if (found === null) return { references: [], provisional: null, learned: null };
  const factors = scaledFactors(found.learned.scale);
  if (!found.isComplete) return { references: [], provisional: factors, learned: null };
  if (automatic !== null && automatic.factors.hot === factors.hot) return held(automatic);
  if (input.isPast) return { references: [], provisional: factors, learned: null };
  const learned = newReference(stored, input, found);
  return { references: [learned], provisional: null, learned };
}

function held(automatic: CleanReferenceRecord): HeldReferences {
  return { references: [automatic], provisional: null, learned: null };
}

/** Whether learning it again would read what it read before: no further from a cleaning than the window it looks through. */
function isUntouched({ evidence }: CleanReferenceRecord, { changedFrom, isPast }: AutomaticInput): boolean {
  return (
    !isPast && changedFrom !== null && evidence !== null && changedFrom >= evidence.from + LEARNING_WINDOW_MS
  );
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
  series: Readings,
  stored: StoredUnit,
  { versions, cleanings, judged, nominal, ends, end }: AutomaticInput,
): Promise<Found | null> {
  if (ends === null) return null;
  const bases = datasheetBases(versions);
  const starts = cleanings.length > 0 ? cleanings : [ends.first];
  for (const start of starts) {
    const readings = await series.readReadings(stored.id, start, Math.min(end, start + LEARNING_WINDOW_MS));
    const cleaning = cleanings.length > 0 ? start : null;
    const evaluation = evaluateOver(bases, readings, { nominal, judged });
    const learned = learnScale(evaluation, cleaning === null ? [] : [cleaning]);
    if (learned === null) continue;
    const newest = Math.min(ends.last, end);
    return { learned, cleaning, isComplete: newest >= learned.from + LEARNING_DAYS * DAY_MS };
  }
  return null;
}

/** What was learned, under the next number. */
function newReference(
  stored: StoredUnit,
  { versions, now, all }: AutomaticInput,
  { learned, cleaning }: Found,
): CleanReferenceRecord {
  const { timeZone } = stored.site;
  const after =
    cleaning === null
      ? 'of the first days of the record'
      : `after the cleaning of ${formatDay(localDay(cleaning, timeZone))}`;
  return {
    number: Math.max(0, ...all.map(({ number }) => number)) + 1,
    from: null,
    method: 'scale',
    unitVersion: basisAt(datasheetBases(versions), learned.from).unitVersion,
    factors: scaledFactors(learned.scale),
    uncertainty: { hot: learned.uncertainty, cold: learned.uncertainty },
    evidence: { from: learned.from, to: learned.to, readings: learned.readings },
    acceptedBy: WORKED_OUT_AUTOMATICALLY,
    reason: `median of ${learned.readings} readings ${after}`,
    acceptedAt: now,
  };
}
