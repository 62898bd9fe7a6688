import { screenValues } from '@/lib/core/checks/screen-values';
import { cleanConductance } from '@/lib/core/clean/clean-conductance';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS, balanceBuffers, reconcileBalance } from '@/lib/core/exchange/reconcile';
import { completeState, NONE_INFERRED } from '@/lib/core/fouling/complete-state';
import { PLACE, type UnitModel, unitModel } from '@/lib/core/fouling/unit-model';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import type { UnitRecords } from '@/lib/report/records';

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
  /** Place of the inferred sensor; −1 for none. */
  inferred: number;
  /** Learned factor on the clean resistance [-]. */
  cleanScale: number;
};

type FigureColumn = Exclude<keyof UnitRecords['evaluation'], 'time' | 'reasons' | 'inferred'>;

/** Null where the reading cannot be evaluated at all (then its reasons say why). */
export function workedState({ record, readings, evaluation }: UnitRecords, row: number): WorkedState | null {
  const figure = (name: FigureColumn) => evaluation[name][row]!;
  if (!(figure('overallU') > 0 && figure('cleanU') > 0)) return null;
  const model = unitModel(record.exchanger, record.settings, 1);
  const reading = oneReading(readings, row);
  const flows = screenValues(model, reading, new Uint32Array(1));
  const buffers = balanceBuffers();
  const inferred = completeState({ model, readings: reading, flows }, 0, buffers);
  // Also where a value was inferred: the balance is closed then, and the call only fills in state and gradient.
  if (!reconcileBalance(model.streams, buffers)) return null;
  const state = { model, reading, figure, ...buffers, inferred };
  return { ...state, cleanScale: cleanScaleOf(state) };
}

/** The factor the stored evaluation used: its clean conductance against that of the datasheet at the same state. */
function cleanScaleOf({ model, reconciled, figure }: Omit<WorkedState, 'cleanScale'>): number {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  const hotMean = (reconciled[hotIn]! + reconciled[hotOut]!) / 2;
  const coldMean = (reconciled[coldIn]! + reconciled[coldOut]!) / 2;
  const stated = cleanConductance(
    model.clean,
    reconciled[hotFlow]!,
    reconciled[coldFlow]!,
    hotMean,
    coldMean,
  );
  return stated / figure('cleanU');
}

function oneReading(readings: ReadingColumns, row: number): ReadingColumns {
  const one = makeReadingColumns(1);
  one.time[0] = readings.time[row]!;
  one.flowBasis[0] = readings.flowBasis[row]!;
  for (const sensor of SENSORS) one[sensor][0] = readings[sensor][row]!;
  return one;
}

export { BALANCE_SENSORS, NONE_INFERRED, PLACE };
