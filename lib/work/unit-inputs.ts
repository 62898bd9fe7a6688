import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import type { UnitBasis } from '@/lib/report/records';
import { listCleanings } from '@/lib/store/entities/events';
import { explainedFalls, listFallAnswers } from '@/lib/store/entities/fall-answers';
import type { StoredBasis } from '@/lib/store/entities/results';
import { listVersions, type StoredUnit, type StoredVersion } from '@/lib/store/entities/units';
import { listVerdicts, standing } from '@/lib/store/entities/verdicts';
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
};

/** Gathers them as they stood at an instant [ms]; a reference that has been learned by then is written down. */
export async function unitInputs(
  context: Context,
  stored: StoredUnit,
  { end, isPast }: { end: number; isPast: boolean },
): Promise<UnitInputs> {
  const { entities, series } = context.store;
  const [versions, events, verdicts, answers, nominal] = await Promise.all([
    listVersions(entities, stored.id),
    listCleanings(entities, stored.id),
    listVerdicts(entities, stored.id),
    listFallAnswers(entities, stored.id),
    series.nominalSensors(stored.id, end),
  ]);
  const cleanings = events.map(({ at }) => at).filter((at) => at < end);
  const judged = standing(verdicts);
  const input = { versions, cleanings, judged, nominal, end, isPast };
  const { references, provisional } = await heldReferences(context, stored, input);
  const plan = planBases(versions, references, provisional);
  return {
    versions,
    cleanings,
    judged,
    explainedFalls: explainedFalls(answers),
    nominal,
    plan,
    bases: toBases(plan, versions),
  };
}
