import { REASON_BIT, REASONS, type Reason } from '@/lib/core/checks/reasons';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import { REASON_WORDS } from '@/lib/report/format/words';
import { REASON_ADVICE, type ReasonAdvice } from './reason-advice';

/** One reason that held in the period: how often, when, and what to do. */
export type LeftOutReason = ReasonAdvice & {
  reason: Reason;
  name: string;
  count: number;
  /** Share of all readings of the period [-]. */
  share: number;
  /** Stretches in which it held [ms], joined where they touch. */
  spans: { from: number; to: number }[];
};

/** What was left out of the period, reason by reason; the most frequent first. */
export type LeftOut = { readings: number; accepted: number; usable: number | null; reasons: LeftOutReason[] };

type Window = { from: number; to: number; interval: number };

/** Stretches closer than this share of the period are drawn as one [-] (about half a pixel of a wide screen). */
const JOIN_SHARE = 1 / 1200;

/** Counts the reasons over the period and says when each held. A reading with several reasons counts under each. */
export function leftOut(evaluation: EvaluationColumns, window: Window): LeftOut {
  const readings = evaluation.time.length;
  const accepted = evaluation.reasons.reduce((sum, mask) => sum + (mask === 0 ? 1 : 0), 0);
  const reasons = REASONS.map((reason) => reasonOf(evaluation, { reason, window }))
    .filter((entry) => entry.count > 0)
    .sort((a, b) => b.count - a.count);
  return { readings, accepted, usable: readings === 0 ? null : accepted / readings, reasons };
}

function reasonOf(
  evaluation: EvaluationColumns,
  { reason, window }: { reason: Reason; window: Window },
): LeftOutReason {
  const bit = REASON_BIT[reason];
  const join = Math.max(window.interval * 1.5, (window.to - window.from) * JOIN_SHARE);
  const spans: LeftOutReason['spans'] = [];
  let count = 0;
  evaluation.reasons.forEach((mask, i) => {
    if ((mask & bit) === 0) return;
    count++;
    const at = evaluation.time[i]!;
    const last = spans.at(-1);
    // A reading stands for the interval up to the next one.
    if (last !== undefined && at - last.to <= join) last.to = at + window.interval;
    else spans.push({ from: at, to: at + window.interval });
  });
  return {
    ...REASON_ADVICE[reason],
    reason,
    name: REASON_WORDS[reason],
    count,
    share: count / Math.max(evaluation.time.length, 1),
    spans,
  };
}
