import { REASONS, type Reason, reasonsOf } from '@/lib/core/checks/reasons';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import { formatInstant } from '@/lib/report/format/time';
import { REASON_WORDS } from '@/lib/report/format/words';
import { localDay } from '@/lib/time/local-clock';
import { REASON_ADVICE, type ReasonAdvice } from './reason-advice';
import { type UnitAddress, unitHref } from './unit-address';

/** A stretch in which a reason held [ms], the readings it held for, and where it is shown and judged. */
export type Stretch = { words: string; count: number; showHref: string; judgeHref: string };

/** One reason that held in the period: how often, when, and what to do. */
export type LeftOutReason = ReasonAdvice & {
  reason: Reason;
  name: string;
  count: number;
  /** Share of all readings of the period [-]. */
  share: number;
  /** Stretches in which it held [ms], joined where they touch. */
  spans: { from: number; to: number }[];
  /** The stretch with most of its readings, and how many others there are. */
  longest: Stretch;
  others: number;
};

/** What was left out of the period, reason by reason; the most frequent first. */
export type LeftOut = { readings: number; accepted: number; usable: number | null; reasons: LeftOutReason[] };

type Window = { from: number; to: number; interval: number };
type Span = { from: number; to: number; count: number };

/** Stretches closer than this share of the period are drawn as one [-] (about half a pixel of a wide screen). */
const JOIN_SHARE = 1 / 1200;
/** A stretch is shown with so many days to either side, so that what is usual is seen beside it (own choice). */
const DAYS_BESIDE = 3;

/** Counts the reasons over the period and says when each held. A reading with several reasons counts under each. */
export function leftOut(
  evaluation: EvaluationColumns,
  window: Window,
  place: { address: UnitAddress; timeZone: string },
): LeftOut {
  const readings = evaluation.time.length;
  const spans = spansOf(evaluation, window);
  const accepted = evaluation.reasons.reduce((sum, mask) => sum + (mask === 0 ? 1 : 0), 0);
  const reasons = REASONS.map((reason) => ({ reason, spans: spans.get(reason) ?? [] }))
    .filter(({ spans }) => spans.length > 0)
    .map(({ reason, spans }) => reasonOf(reason, spans, { readings, ...place }))
    .sort((a, b) => b.count - a.count);
  return { readings, accepted, usable: readings === 0 ? null : accepted / readings, reasons };
}

/** The stretches of each reason, in one pass over the readings. */
function spansOf({ time, reasons }: EvaluationColumns, window: Window): Map<Reason, Span[]> {
  const join = Math.max(window.interval * 1.5, (window.to - window.from) * JOIN_SHARE);
  const found = new Map<Reason, Span[]>();
  for (let i = 0; i < time.length; i++) {
    if (reasons[i] === 0) continue;
    const at = time[i]!;
    // A reading stands for the interval up to the next one.
    const to = at + window.interval;
    for (const reason of reasonsOf(reasons[i]!)) {
      const spans = found.get(reason) ?? [];
      found.set(reason, spans);
      const last = spans.at(-1);
      if (last === undefined || at - last.to > join) spans.push({ from: at, to, count: 1 });
      else {
        last.to = to;
        last.count++;
      }
    }
  }
  return found;
}

function reasonOf(
  reason: Reason,
  spans: Span[],
  { readings, address, timeZone }: { readings: number; address: UnitAddress; timeZone: string },
): LeftOutReason {
  const count = spans.reduce((sum, span) => sum + span.count, 0);
  const longest = spans.reduce((best, span) => (span.count > best.count ? span : best));
  return {
    ...REASON_ADVICE[reason],
    reason,
    name: REASON_WORDS[reason],
    count,
    share: count / readings,
    spans: spans.map(({ from, to }) => ({ from, to })),
    longest: stretchOf(longest, address, timeZone),
    others: spans.length - 1,
  };
}

function stretchOf({ from, to, count }: Span, address: UnitAddress, timeZone: string): Stretch {
  const around = {
    period: 'custom',
    fromDay: localDay(from, timeZone) - DAYS_BESIDE,
    toDay: localDay(to, timeZone) + DAYS_BESIDE,
    reading: null,
  } as const;
  return {
    words: `${formatInstant(from, timeZone)} – ${formatInstant(to, timeZone)}`,
    count,
    showHref: unitHref(address, { ...around, stretch: null }, 'charts'),
    judgeHref: unitHref(address, { ...around, stretch: { from, to } }, 'judging'),
  };
}
