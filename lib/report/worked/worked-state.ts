import { screenValues } from '@/lib/core/checks/screen-values';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS, balanceBuffers } from '@/lib/core/exchange/reconcile';
import { reconcileState } from '@/lib/core/fouling/close-balance';
import { completeState, NONE_INFERRED } from '@/lib/core/fouling/complete-state';
import { basisAt } from '@/lib/core/fouling/evaluate-over';
import type { EVALUATION_FLOAT_COLUMNS } from '@/lib/core/fouling/evaluation-columns';
import { PLACE, type UnitModel, unitModel } from '@/lib/core/fouling/unit-model';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import type { UnitBasis, UnitRecords } from '@/lib/report/records';

/** One reading with the states in between that the evaluation passes through, all from the core's own functions, SI. */
export type WorkedState = {
  model: UnitModel;
  /** The reading alone, as columns of length 1. */
  reading: ReadingColumns;
  /** Values of one row of the evaluation. */
  figure: (name: FigureColumn) => number;
  /** Six values in the order of BALANCE_SENSORS [°C, kg/s]: as measured or inferred, their uncertainties, reconciled. */
  measured: Float64Array;
  uncertainty: Float64Array;
  reconciled: Float64Array;
  /** Derivative of the imbalance to each of them [W/K, J/kg]. */
  gradient: Float64Array;
  /** Imbalance as measured [W], its variance [W²] and χ² [-], in the places that `reconcileBalance` gives them. */
  statistics: Float64Array;
  /** Place of the inferred sensor; −1 for none. */
  inferred: number;
  /** Bits of the flows that stood in at their nominal value. */
  nominal: number;
  /** What the reading was judged by: datasheet, clean reference and its factors. */
  basis: UnitBasis;
};

type FigureColumn = (typeof EVALUATION_FLOAT_COLUMNS)[number];

/** What a working needs of a unit: readings, stored or typed in, and their evaluation. */
export type EvaluatedUnit = Pick<
  UnitRecords,
  'record' | 'bases' | 'versions' | 'references' | 'readings' | 'evaluation'
>;

/** Null where the reading cannot be evaluated at all (then its reasons say why). */
export function workedState({ bases, readings, evaluation }: EvaluatedUnit, row: number): WorkedState | null {
  const figure = (name: FigureColumn) => evaluation[name][row]!;
  if (!(figure('overallU') > 0 && figure('cleanU') > 0)) return null;
  const basis = basisAt(bases, readings.time[row]!);
  const model = unitModel(basis.exchanger, basis.settings, basis.cleanFactors);
  const reading = oneReading(readings, row);
  const flows = screenValues(model, reading, new Uint32Array(1));
  const buffers = balanceBuffers();
  const inferred = completeState({ model, readings: reading, flows }, 0, buffers);
  // Also where a value was inferred: the balance is closed then, and the call only fills in state and gradient.
  if (!reconcileState(model, buffers)) return null;
  const nominal = evaluation.nominal[row]!;
  return { model, reading, figure, ...buffers, inferred, nominal, basis };
}

function oneReading(readings: ReadingColumns, row: number): ReadingColumns {
  const one = makeReadingColumns(1);
  one.time[0] = readings.time[row]!;
  one.flowBasis[0] = readings.flowBasis[row]!;
  for (const sensor of SENSORS) one[sensor][0] = readings[sensor][row]!;
  return one;
}

export { BALANCE_SENSORS, NONE_INFERRED, PLACE };
