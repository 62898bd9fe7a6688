import type { VerdictRecord } from '@/lib/contract/verdicts';
import type { ChartLane } from '@/lib/report/format/chart-view';
import type { TimeAxis } from '@/lib/report/format/time-axis';

/** "left out" or "counted in": what a verdict does to the readings of its period. */
export const VERDICT_WORDS: Record<VerdictRecord['verdict'], string> = {
  exclude: 'left out',
  include: 'counted in',
};

/** The periods that people judged and that touch an axis, with who judged and why; withdrawn verdicts are history. */
export function judgedSpans(verdicts: readonly VerdictRecord[], axis: TimeAxis): ChartLane['judged'] {
  return verdicts
    .filter(({ from, to, withdrawn }) => withdrawn === null && to > axis.from && from < axis.end)
    .map(({ from, to, verdict, by, note }) => ({
      from: Math.max(from, axis.from),
      to: Math.min(to, axis.end),
      label: `${VERDICT_WORDS[verdict]} by ${by}: ${note}`,
      short: `${VERDICT_WORDS[verdict]} by ${by}`,
    }));
}

/** Adds to each row's remark what people said of its instant. */
export function withJudgements(
  remarks: readonly (string | null)[],
  time: ArrayLike<number>,
  judged: ChartLane['judged'],
): (string | null)[] {
  if (judged.length === 0) return [...remarks];
  return remarks.map((remark, row) => {
    const at = time[row]!;
    const said = judged.filter(({ from, to }) => at >= from && at < to).map(({ label }) => label);
    return remark === null && said.length === 0
      ? null
      : [remark, ...said].filter((part) => part !== null).join('; ');
  });
}
