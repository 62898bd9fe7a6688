import { findStepDowns, type StepDown } from '../cycles/find-step-downs';
import { type CycleSpan, type RecordedCleaning, splitCycles } from '../cycles/split-cycles';
import type { DailyColumns } from '../series/daily-columns';
import type { Cycle } from './unit-trend';

/** A fall is found a few days earlier or later as figures come in: an answer about a day this near is about it [days]. */
const SAME_FALL_DAYS = 5;

/** A cycle and what began it. */
export type BegunSpan = CycleSpan & Pick<Cycle, 'began'>;

export type SpansInput = {
  cleanings: readonly RecordedCleaning[];
  /** Fouling resistance at the governing limit [m²·K/W]; null without one. */
  allowance: number | null;
  /** Local days of falls of which a person said that they were no cleaning. */
  explainedFalls: readonly number[];
};

/**
 * The cycles of a record: from one recorded cleaning to the next, and from a fall that nobody has explained, for no growth
 * goes on across it.
 *
 * @param daily daily figures of the unit
 * @param input recorded cleanings, allowance, explained falls
 * @returns cycles in order, the last one running, and the unexplained falls: probable cleanings
 * @range  any
 * @source METHODS §8
 * @check  tests/core/pipeline/cycle-spans.test.ts
 */
export function cycleSpans(
  daily: DailyColumns,
  { cleanings, allowance, explainedFalls }: SpansInput,
): { spans: BegunSpan[]; probableCleanings: StepDown[] } {
  const probableCleanings: StepDown[] = [];
  const spans = splitCycles(daily, cleanings).flatMap((span) => {
    const falls = findStepDowns(daily, span, { allowance }).filter(
      ({ day }) => !explainedFalls.some((explained) => Math.abs(explained - day) <= SAME_FALL_DAYS),
    );
    probableCleanings.push(...falls);
    return splitAtFalls(daily, span, falls);
  });
  return { spans, probableCleanings };
}

function splitAtFalls(daily: DailyColumns, span: CycleSpan, falls: readonly StepDown[]): BegunSpan[] {
  const began = span.start === null ? 'record' : 'cleaning';
  const rows = falls.map(({ day }) => daily.day.findIndex((own) => own >= day));
  return [span.from, ...rows].map((from, index) => ({
    start: index === 0 ? span.start : null,
    end: index < falls.length ? null : span.end,
    startDay: index === 0 ? span.startDay : falls[index - 1]!.day,
    endDay: index < falls.length ? falls[index]!.day : span.endDay,
    from,
    to: rows[index] ?? span.to,
    began: index === 0 ? began : 'probable-cleaning',
  }));
}
