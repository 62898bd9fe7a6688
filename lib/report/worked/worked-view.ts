import { reasonsOf } from '@/lib/core/checks/reasons';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { REASON_WORDS } from '@/lib/report/format/words';
import type { UnitRecords } from '@/lib/report/records';
import { type UnitAddress, unitHref } from '@/lib/report/unit/unit-address';
import { growthStep } from './growth-step';
import { pickReading } from './pick-reading';
import { pressureDropStep } from './pressure-drop-step';
import type { ReadingRow } from './reading-table';
import type { SuspectRow } from './suspect-rows';
import { workedReading } from './worked-reading';
import { type WorkedStep, writer } from './worked-step';

/** "How was this worked out?": one reading, every formula with its figures, and the projection. */
export type WorkedView = {
  /** The reading's time in the site's zone; null when the period holds no accepted reading. */
  time: string | null;
  /** Why it was left out, in words; empty when accepted. */
  reasons: string[];
  isAskedForFound: boolean;
  table: ReadingRow[];
  /** What the χ² test says of its balance; null where none is checked. */
  balanceTest: string | null;
  /** What each sensor alone would have to read too much; empty where no balance is checked. */
  suspects: SuspectRow[];
  steps: WorkedStep[];
  previous: string | null;
  next: string | null;
};

export function workedView(records: UnitRecords, address: UnitAddress, system: UnitSystem): WorkedView {
  const { record, evaluation, trend, now } = records;
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
      balanceTest: null,
      suspects: [],
      steps: growth === null ? [] : [growth],
      previous: null,
      next: null,
    };
  }
  const { table, balanceTest, suspects, steps } = workedReading(records, picked.row, system);
  const more = [pressureDropStep(records, picked.row, writer(system)), growth].filter(
    (step) => step !== null,
  );
  return {
    time: formatInstant(evaluation.time[picked.row]!, timeZone),
    reasons: reasonsOf(evaluation.reasons[picked.row]!).map((reason) => REASON_WORDS[reason]),
    isAskedForFound: address.reading === null || evaluation.time[picked.row] === address.reading,
    table,
    balanceTest,
    suspects,
    steps: [...steps, ...more],
    previous: href(picked.previous),
    next: href(picked.next),
  };
}
