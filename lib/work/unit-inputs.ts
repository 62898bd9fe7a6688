import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import type { Unit } from '@/lib/contract/fleet-file';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import type { UnitBasis } from '@/lib/report/records';
import { listDossiers, type UnitDossier } from '@/lib/store/entities/dossiers';
import type { StoredBasis } from '@/lib/store/entities/results';
import type { StoredUnit, StoredVersion } from '@/lib/store/entities/units';
import type { ReadingSpan, SeriesStore } from '@/lib/store/series/series-store';
import { heldReferences } from './automatic-reference';
import type { Context } from './context';
import { planBases, toBases } from './unit-bases';

/** Everything but the readings that a unit's results are worked out from. */
export type UnitInputs = {
  versions: StoredVersion[];
  /** Instants of the recorded cleanings before `end` [ms], ascending. */
  cleanings: number[];
  /** Bits of the sensors that hold a typed-in value over the whole record. */
  nominal: number;
  /** What people said of readings, oldest first. */
  judged: JudgedPeriod[];
  /** Local days of falls of the fouling that were no cleaning. */
  explainedFalls: number[];
  plan: StoredBasis[];
  bases: UnitBasis[];
  /** A clean reference that has just been learned, to be written down with the results. */
  learned: CleanReferenceRecord | null;
};

export type InputsRequest = {
  /** Readings and cleanings before this instant are used [ms]. */
  end: number;
  isPast: boolean;
  /** Clock [ms]. */
  now: number;
  ends: ReadingSpan | null;
  nominal: number;
  /** Nothing that a clean reference is learned from has changed before this instant [ms]; null: everything may have. */
  changedFrom: number | null;
};

/** A unit's inputs as they stood at an instant. */
export async function inputsOf(
  series: Pick<SeriesStore, 'readReadings'>,
  dossier: UnitDossier,
  request: InputsRequest,
): Promise<UnitInputs> {
  const { judged, explainedFalls, references: all } = dossier;
  const { end, nominal } = request;
  const versions = versionsOf(dossier);
  const cleanings = dossier.cleanings.map(({ at }) => at).filter((at) => at < end);
  const input = { ...request, versions, cleanings, judged, all };
  const { references, provisional, learned } = await heldReferences(series, storedUnit(dossier), input);
  const plan = planBases(versions, references, provisional);
  const bases = toBases(plan, versions);
  return { versions, cleanings, judged, explainedFalls, nominal, plan, bases, learned };
}

/** A unit's inputs as they stood at an instant of the past [ms]; nothing is written down. */
export async function pastInputs(context: Context, unitId: number, end: number): Promise<UnitInputs> {
  const { entities, series } = context.store;
  const [dossiers, ends, nominal] = await Promise.all([
    listDossiers(entities, [unitId]),
    series.readingSpan(unitId),
    series.nominalSensors(unitId, end),
  ]);
  return inputsOf(series, dossiers.get(unitId)!, {
    end,
    isPast: true,
    now: context.now(),
    ends,
    nominal,
    changedFrom: null,
  });
}

/** The unit with its newest datasheet. */
export function storedUnit({ id, tag, site, versions }: UnitDossier): StoredUnit {
  const { document, number, savedAt } = versions.at(-1)!;
  return { id, tag, site, unit: unitOf(document), version: number, versionSince: savedAt };
}

function versionsOf({ versions }: UnitDossier): StoredVersion[] {
  return versions.map(({ number, document, savedAt }) => ({ number, unit: unitOf(document), savedAt }));
}

/** Datasheets kept in memory: what follows from one is kept with it (`toBases`) [-]. */
const MOST_KEPT = 4096;
const kept = new Map<string, Unit>();

/** Equal texts give the same object, so that what follows from a datasheet is worked out once. */
function unitOf(document: string): Unit {
  const known = kept.get(document);
  if (known !== undefined) return known;
  const unit = JSON.parse(document) as Unit;
  if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value!);
  kept.set(document, unit);
  return unit;
}
