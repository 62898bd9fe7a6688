import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecord } from '@/lib/report/records';
import { balanceTestInWords } from './balance-test';
import { cleanSteps } from './clean-steps';
import { conductanceSteps } from './conductance-steps';
import { type ReadingRow, readingTable } from './reading-table';
import { streamSteps } from './stream-steps';
import { type SuspectRow, suspectRows } from './suspect-rows';
import { type EvaluatedUnit, type WorkedState, workedState } from './worked-state';
import { type WorkedStep, writer } from './worked-step';

/** One evaluated reading worked out, wherever it came from: its values as read and reconciled, and every formula. */
export type WorkedReading = {
  table: ReadingRow[];
  /** What the χ² test says of the balance; null where a value was inferred or stood in, and nothing is tested. */
  balanceTest: string | null;
  /** What each sensor alone would have to read too much; empty where no balance is checked. */
  suspects: SuspectRow[];
  steps: WorkedStep[];
};

export function workedReading(evaluated: EvaluatedUnit, row: number, system: UnitSystem): WorkedReading {
  const state = workedState(evaluated, row);
  const write = writer(system);
  return {
    table: readingTable(evaluated.readings, row, { state, system }),
    balanceTest: state === null ? null : balanceTestInWords(state),
    suspects: state === null ? [] : suspectRows(state, system),
    steps:
      state === null
        ? []
        : [
            ...streamSteps(state, write),
            ...conductanceSteps(state, recordThen(evaluated, state), write),
            ...cleanSteps(state, evaluated, write),
          ],
  };
}

/** The unit as it stood at the reading: an older version of its datasheet, where the equipment has changed since. */
function recordThen({ record, versions }: EvaluatedUnit, { basis }: WorkedState): UnitRecord {
  const unit = versions.find(({ number }) => number === basis.unitVersion)?.unit ?? record.unit;
  return { ...record, unit, exchanger: basis.exchanger, settings: basis.settings };
}
