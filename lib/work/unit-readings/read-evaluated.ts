import { evaluateOver } from '@/lib/core/fouling/evaluate-over';
import { sliceEvaluation } from '@/lib/core/fouling/evaluation-columns';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { sliceReadings } from '@/lib/core/series/reading-columns';
import type { UnitBasis, UnitRecords } from '@/lib/report/records';
import type { StoredResult } from '@/lib/store/entities/results';
import type { StoredVersion } from '@/lib/store/entities/units';
import { standing } from '@/lib/store/entities/verdicts';
import type { Context } from '../context';
import { type ExponentsInput, learnPressureExponents } from '../learn-exponents';
import type { Stretch } from './changed-stretches';
import { EvaluationCache } from './evaluation-cache';

/** A unit as its readings are evaluated: by the datasheets and clean references its results were made with. */
export type EvaluatedBy = {
  unitId: number;
  known: StoredResult | null;
  bases: readonly UnitBasis[];
  versions: readonly StoredVersion[];
  verdicts: UnitRecords['verdicts'];
  /** How often readings of any unit have changed (`SeriesStore.revision`), asked before anything else was read. */
  revision: string;
};

/** What is kept in memory of a database while the process runs. */
type Memory = {
  evaluations: EvaluationCache;
  exponents: Map<number, { of: string; learned: UnitRecords['pressureExponents'] }>;
};

const MEMORIES = new WeakMap<Context['store'], Memory>();

function memoryOf({ store }: Context): Memory {
  const known = MEMORIES.get(store);
  if (known !== undefined) return known;
  const memory = { evaluations: new EvaluationCache(), exponents: new Map() };
  MEMORIES.set(store, memory);
  return memory;
}

/** Readings with from ≤ time < to [ms] and their evaluation, out of memory where nothing has changed. */
export async function readEvaluated(
  context: Context,
  unit: EvaluatedBy,
  { from, to }: Stretch,
): Promise<Pick<UnitRecords, 'readings' | 'evaluation'>> {
  const { unitId, known, bases, verdicts } = unit;
  const judged = standing(verdicts);
  const readReadings = (first: number, end: number) => context.store.series.readReadings(unitId, first, end);
  if (known === null || from >= to) {
    // Before the first analysis nobody has looked which sensors repeat a typed-in value: the readings shown must do.
    const readings = await readReadings(from, to);
    const evaluation = evaluateOver(bases, readings, { nominal: known?.nominal, judged });
    return { readings, evaluation };
  }
  const { readings, evaluation } = await memoryOf(context).evaluations.evaluated({
    unitId,
    from,
    to,
    judging: { bases, nominal: known.nominal, judged },
    judgedBy: judgedBy(unit),
    readAt: unit.revision,
    readReadings,
  });
  const [first, end] = [firstNotBefore(readings.time, from), firstNotBefore(readings.time, to)];
  return {
    readings: sliceReadings(readings, first, end),
    evaluation: sliceEvaluation(evaluation, first, end),
  };
}

/** Most units of which learned exponents are kept [-]: a few figures each. */
const MOST_LEARNED = 1000;

/** `learnPressureExponents`, out of memory where nothing has changed. */
export async function readExponents(
  context: Context,
  unit: EvaluatedBy,
  { daily, cleanings }: Pick<ExponentsInput, 'daily' | 'cleanings'>,
): Promise<UnitRecords['pressureExponents']> {
  const { exponents } = memoryOf(context);
  const of = JSON.stringify([judgedBy(unit), unit.revision, cleanings]);
  const found = exponents.get(unit.unitId);
  if (found?.of === of) return found.learned;
  const learned = await learnPressureExponents({
    readReadings: (from, to) => context.store.series.readReadings(unit.unitId, from, to),
    bases: unit.bases,
    daily,
    cleanings,
    nominal: unit.known?.nominal,
    judged: standing(unit.verdicts),
  });
  exponents.delete(unit.unitId);
  exponents.set(unit.unitId, { of, learned });
  if (exponents.size > MOST_LEARNED) exponents.delete(exponents.keys().next().value!);
  return learned;
}

/** Everything a reading is judged by besides its neighbours, as one text. */
function judgedBy({ known, bases, versions, verdicts }: EvaluatedBy): string {
  const plan = bases.map(({ from, unitVersion, reference, cleanFactors, exchanger }) => [
    from,
    unitVersion,
    reference,
    cleanFactors,
    exchanger.clean,
  ]);
  const datasheets = versions.map(({ number, unit }) => [number, unit]);
  return JSON.stringify([plan, datasheets, known?.nominal ?? null, standing(verdicts)]);
}
