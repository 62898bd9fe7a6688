import { suppliesInForce } from '@/lib/report/prices/supplies-in-force';
import type { SupplyRecord } from '@/lib/report/records';
import { listDossiers } from '@/lib/store/entities/dossiers';
import { suppliesOf } from '@/lib/store/entities/supplies';
import type { Phase, TakenUnit } from '@/lib/store/series/analysis-store';
import type { Context } from '../context';
import { moveOn, type Todays } from './todays';
import type { UnitTask } from './unit-task';

/** What is to be done with units taken: of which phase, and as of which day. */
export type Batch = {
  phase: Phase;
  taken: readonly TakenUnit[];
  /** Each site's today, moved on by readings that are newer. */
  todays: Todays;
  /** An instant of the past that was asked for [ms]; null: each site's today. */
  asOf: number | null;
};

/** Everything that units are worked out from but their readings and figures, in a few queries. */
export async function gather(
  { store, now }: Context,
  { phase, taken, todays, asOf }: Batch,
): Promise<UnitTask[]> {
  const unitIds = taken.map(({ unitId }) => unitId);
  const [dossiers, ends] = await Promise.all([
    listDossiers(store.entities, unitIds),
    store.series.readingSpans(unitIds),
  ]);
  const sites = new Set([...dossiers.values()].map(({ site }) => site.id));
  const supplies = suppliesBySite(await suppliesOf(store.entities, [...sites]));
  for (const { id, site } of dossiers.values()) moveOn(todays, site.id, ends.get(id)?.last ?? null);
  return taken.flatMap((unit): UnitTask[] => {
    const dossier = dossiers.get(unit.unitId);
    if (dossier === undefined) return [];
    return [
      {
        taken: unit,
        phase,
        dossier,
        supplies: supplies.get(dossier.site.id) ?? [],
        ends: ends.get(unit.unitId) ?? null,
        asOf: asOf ?? todays.get(dossier.site.id) ?? null,
        isPast: asOf !== null,
        now: now(),
      },
    ];
  });
}

function suppliesBySite(stated: readonly SupplyRecord[]): Map<number, SupplyRecord[]> {
  const bySite = new Map<number, SupplyRecord[]>();
  for (const supply of suppliesInForce(stated))
    bySite.set(supply.siteId, [...(bySite.get(supply.siteId) ?? []), supply]);
  return bySite;
}
