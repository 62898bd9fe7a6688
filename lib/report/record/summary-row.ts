import { formatNumber, MISSING } from '@/lib/report/format/figure';
import type { RecordSummary } from './record-summary';
import { daysInWords, percentOf } from './record-words';

/** How a set of past projections did, as cells of a table. */
export type SummaryRow = {
  name: string;
  count: string;
  held: string;
  /** Share held and what chance allows, to be drawn beside the aim [-]; null without any. */
  bar: { share: number; low: number; high: number } | null;
  errorDays: string;
  errorShare: string;
  tooEarly: string;
  tooLate: string;
  noDay: string;
};

export function summaryRow(name: string, summary: RecordSummary): SummaryRow {
  const { count, held, heldShare, interval, medianErrorDays, medianErrorShare } = summary;
  const bar = heldShare === null || interval === null ? null : { share: heldShare, ...interval };
  return {
    name,
    count: formatNumber(count, 0),
    held: bar === null ? MISSING : `${held} of ${count}, ${percentOf(bar.share)}`,
    bar,
    errorDays: medianErrorDays === null ? MISSING : daysInWords(medianErrorDays),
    errorShare: medianErrorShare === null ? MISSING : percentOf(medianErrorShare),
    tooEarly: formatNumber(summary.tooEarly, 0),
    tooLate: formatNumber(summary.tooLate, 0),
    noDay: formatNumber(summary.noDay, 0),
  };
}
