import { reasonsOf } from '@/lib/core/checks/reasons';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { REASON_WORDS } from '@/lib/report/format/words';
import type { UnitRecords } from '@/lib/report/records';
import { type UnitAddress, unitHref } from '@/lib/report/unit/unit-address';
import { cleanSteps } from './clean-steps';
import { conductanceSteps } from './conductance-steps';
import { growthStep } from './growth-step';
import { pickReading } from './pick-reading';
import { type ReadingRow, readingTable } from './reading-table';
import { streamSteps } from './stream-steps';
import { workedState } from './worked-state';
import { type WorkedStep, writer } from './worked-step';

/** "How was this worked out?": one reading, every formula with its figures, and the projection. */
export type WorkedView = {
  /** The reading's time in the site's zone; null when the period holds no accepted reading. */
  time: string | null;
  /** Why it was left out, in words; empty when accepted. */
  reasons: string[];
  isAskedForFound: boolean;
  table: ReadingRow[];
  steps: WorkedStep[];
  previous: string | null;
  next: string | null;
};

export function workedView(records: UnitRecords, address: UnitAddress, system: UnitSystem): WorkedView {
  const { record, readings, evaluation, trend, now } = records;
  const { timeZone } = record.site;
  const growth = growthStep(trend, now, { system, timeZone });
  const picked = pickReading(evaluation, address.reading);
  const href = (row: number | null) =>
    row === null ? null : unitHref(address, { reading: evaluation.time[row]!, isWorkedOut: true }, 'how');
  if (picked === null) {
    return {
      time: null,
      reasons: [],
      isAskedForFound: false,
      table: [],
      steps: growth === null ? [] : [growth],
      previous: null,
      next: null,
    };
  }
  const state = workedState(records, picked.row);
  const write = writer(system);
  const steps =
    state === null
      ? []
      : [
          ...streamSteps(state, write),
          ...conductanceSteps(state, record, write),
          ...cleanSteps(state, write),
        ];
  return {
    time: formatInstant(evaluation.time[picked.row]!, timeZone),
    reasons: reasonsOf(evaluation.reasons[picked.row]!).map((reason) => REASON_WORDS[reason]),
    isAskedForFound: address.reading === null || evaluation.time[picked.row] === address.reading,
    table: readingTable(readings, picked.row, { state, system }),
    steps: growth === null ? steps : [...steps, growth],
    previous: href(picked.previous),
    next: href(picked.next),
  };
}
