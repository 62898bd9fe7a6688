import { evaluateOver } from '@/lib/core/fouling/evaluate-over';
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
import { listVerdicts, standing } from '@/lib/store/entities/verdicts';
import type { Context } from './context';
import { learnPressureExponents } from './learn-exponents';
import { toRecord } from './read-fleet';
import { planBases, toBases } from './unit-bases';

export type Period = {
  /** [ms]; null = from the first reading, or to the newest. */
  from: number | null;
  to: number | null;
};

/**
 * Everything the unit page shows: stored results, and the readings of the period evaluated by the datasheets and
 * clean references those results were made with. Null for an unknown tag.
 */
export async function readUnit(context: Context, tag: string, period: Period): Promise<UnitRecords | null> {
  const { entities, series } = context.store;
  const stored = await findUnit(entities, tag);
  if (stored === null) return null;
  const own = { unitId: stored.id };
  const [known, cleanings, files, planned, outages, supplies, daily, due, ...judging] = await Promise.all([
    findResult(entities, stored.id),
    listCleanings(entities, stored.id),
    listCleaningFiles(entities, own),
    listPlanned(entities, { ...own, state: 'open' }),
    listOutages(entities),
    listSupplies(entities),
    series.readDaily(stored.id),
    series.due(),
    listCleaningChanges(entities, stored.id),
    listVersions(entities, stored.id),
    listReferences(entities, stored.id),
    listVerdicts(entities, stored.id),
    listFallAnswers(entities, stored.id),
    series.readReadings(stored.id, period.from ?? 0, period.to ?? Number.MAX_SAFE_INTEGER),
  ]);
  const [cleaningChanges, versions, references, verdicts, answers, readings] = judging;
  const judgedBy = known !== null && known.basis.length > 0 ? known.basis : planBases(versions, []);
  const bases = toBases(judgedBy, versions);
  const judged = standing(verdicts);
  return {
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
    readings,
    evaluation: evaluateOver(bases, readings, { nominal: known?.nominal, judged }),
    now: known?.asOf ?? context.now(),
    clock: context.now(),
    pressureExponents: await learnPressureExponents({
      readReadings: (from, to) => series.readReadings(stored.id, from, to),
      bases,
      daily,
      cleanings: cleanings.map(({ at }) => at),
      nominal: known?.nominal,
      judged,
    }),
    isDue: due.has(stored.id),
  };
}

/** The unit as its datasheet states it, with how its clean reference in force was found. */
function recordInForce(record: UnitRecord, bases: readonly UnitBasis[]): UnitRecord {
  const { clean } = bases.at(-1)!.exchanger;
  return { ...record, exchanger: { ...record.exchanger, clean } };
}
