import type { UnitBasis } from '@/lib/report/records';
import { listCleanings } from '@/lib/store/entities/events';
import type { StoredBasis } from '@/lib/store/entities/results';
import { listVersions, type StoredUnit, type StoredVersion } from '@/lib/store/entities/units';
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
  plan: StoredBasis[];
  bases: UnitBasis[];
};

/** Gathers them as they stood at an instant [ms]; a reference that has been learned by then is written down. */
export async function unitInputs(
  context: Context,
  stored: StoredUnit,
  { end, isPast }: { end: number; isPast: boolean },
): Promise<UnitInputs> {
  const { entities, series } = context.store;
  const [versions, events, nominal] = await Promise.all([
    listVersions(entities, stored.id),
    listCleanings(entities, stored.id),
    series.nominalSensors(stored.id, end),
  ]);
  const cleanings = events.map(({ at }) => at).filter((at) => at < end);
  const input = { versions, cleanings, nominal, end, isPast };
  const { references, provisional } = await heldReferences(context, stored, input);
  const plan = planBases(versions, references, provisional);
  return { versions, cleanings, nominal, plan, bases: toBases(plan, versions) };
}
