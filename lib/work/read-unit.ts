import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import type { UnitBasis, UnitRecord, UnitRecords } from '@/lib/report/records';
import { listCleaningFiles } from '@/lib/store/entities/cleaning-files';
import { listCleaningChanges } from '@/lib/store/entities/cleanings';
import { listCleanings, listOutages } from '@/lib/store/entities/events';
import { listFallAnswers } from '@/lib/store/entities/fall-answers';
import { listPlanned } from '@/lib/store/entities/planned';
import { listReferences } from '@/lib/store/entities/references';
import { findResult } from '@/lib/store/entities/results';
import { listSupplies } from '@/lib/store/entities/supplies';
import { findUnit, listVersions } from '@/lib/store/entities/units';
import { listVerdicts } from '@/lib/store/entities/verdicts';
import type { Context } from './context';
import { toRecord } from './read-fleet';
import { planBases, toBases } from './unit-bases';
import { type EvaluatedBy, readEvaluated, readExponents } from './unit-readings/read-evaluated';

export type Period = {
  /** [ms]; null = from the first reading, or to the newest. */
  from: number | null;
  to: number | null;
};

/** What a period can be picked from: the unit without its readings. */
export type BareUnit = Omit<UnitRecords, 'readings' | 'evaluation' | 'pressureExponents'>;

/**
 * Everything the unit page shows: stored results, and the readings of the period evaluated by the datasheets and
 * clean references those results were made with. Null for an unknown tag.
 *
 * @param period which readings; it may hang on what is known of the unit, such as its cycles
 */
export async function readUnit(
  context: Context,
  tag: string,
  period: Period | ((unit: BareUnit) => Period),
): Promise<UnitRecords | null> {
  const found = await readBare(context, tag);
  if (found === null) return null;
  const { bare, by } = found;
  const { from, to } = typeof period === 'function' ? period(bare) : period;
  const stretch = { from: from ?? 0, to: to ?? Number.MAX_SAFE_INTEGER };
  const { daily } = bare;
  const cleanings = bare.cleanings.map(({ at }) => at);
  const [evaluated, pressureExponents] = await Promise.all([
    readEvaluated(context, by, stretch),
    readExponents(context, by, { daily, cleanings }),
  ]);
  return { ...bare, ...evaluated, pressureExponents };
}

async function readBare(context: Context, tag: string): Promise<{ bare: BareUnit; by: EvaluatedBy } | null> {
  const { entities, series } = context.store;
  const stored = await findUnit(entities, tag);
  if (stored === null) return null;
  const own = { unitId: stored.id };
  // Read before the readings: what changes in between is then read again with the next request.
  const [revision, due, known] = await Promise.all([
    series.revision(),
    entities.unitDue.findUnique({ where: own, select: { unitId: true } }),
    findResult(entities, stored.id),
  ]);
  const [cleanings, files, planned, outages, supplies, daily, ...judging] = await Promise.all([
    listCleanings(entities, stored.id),
    listCleaningFiles(entities, own),
    listPlanned(entities, { ...own, state: 'open' }),
    listOutages(entities),
    listSupplies(entities),
    series.readDaily(stored.id),
    listCleaningChanges(entities, stored.id),
    listVersions(entities, stored.id),
    listReferences(entities, stored.id),
    listVerdicts(entities, stored.id),
    listFallAnswers(entities, stored.id),
  ]);
  const [cleaningChanges, versions, references, verdicts, answers] = judging;
  const judgedBy = known !== null && known.basis.length > 0 ? known.basis : planBases(versions, []);
  const bases = toBases(judgedBy, versions);
  const bare = {
    record: recordInForce(toRecord(stored), bases),
    trend: known?.trend ?? null,
    result: known?.result ?? null,
    daily,
    cleanings,
    cleaningChanges,
    files,
    planned,
    outages: outages.filter(({ siteId }) => siteId === stored.site.id),
    supplies: suppliesInForce(supplies).filter(({ siteId }) => siteId === stored.site.id),
    bases,
    versions,
    references,
    verdicts,
    fallAnswers: answers,
    now: known?.asOf ?? context.now(),
    clock: context.now(),
    isDue: due !== null,
  };
  return { bare, by: { ...own, known, bases, versions, verdicts, revision: readingsOf(revision) } };
}

/** The part of a revision that tells of readings. */
function readingsOf(revision: string): string {
  return /readings:\S+/.exec(revision)?.[0] ?? revision;
}

/** The unit as its datasheet states it, with how its clean reference in force was found. */
function recordInForce(record: UnitRecord, bases: readonly UnitBasis[]): UnitRecord {
  const { clean } = bases.at(-1)!.exchanger;
  return { ...record, exchanger: { ...record.exchanger, clean } };
}
