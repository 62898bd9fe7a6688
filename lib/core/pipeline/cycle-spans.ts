import { type StepDown, type StepSearch, searchStepDowns, searchWith } from '../cycles/find-step-downs';
import { type CycleSpan, type RecordedCleaning, splitCycles } from '../cycles/split-cycles';
import type { DailyColumns } from '../series/daily-columns';
import type { Cycle } from './unit-trend';

/** A fall is found a few days earlier or later as figures come in: an answer about a day this near is about it [days]. */
const SAME_FALL_DAYS = 5;

/** A cycle and what began it. */
export type BegunSpan = CycleSpan & Pick<Cycle, 'began'>;

/** What was found in a recorded cycle that ended. */
export type CycleSearch = Pick<CycleSpan, 'start' | 'end' | 'startDay' | 'endDay'> & StepSearch;

export type SpansInput = {
  cleanings: readonly RecordedCleaning[];
  /** Fouling resistance at the governing limit [m²·K/W]; null without one. */
  allowance: number | null;
  /** Local days of falls of which a person said that they were no cleaning. */
  explainedFalls: readonly number[];
  /** Earlier searches, and the first local day whose figures may have changed since; left out: none. */
  known?: { searches: readonly CycleSearch[]; changedSinceDay: number } | undefined;
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
  input: SpansInput,
): { spans: BegunSpan[]; probableCleanings: StepDown[]; searches: CycleSearch[] } {
  const probableCleanings: StepDown[] = [];
  const searches: CycleSearch[] = [];
  const recorded = splitCycles(daily, input.cleanings);
  const spans = recorded.flatMap((span, index) => {
    const search = knownSearch(span, input) ?? searchStepDowns(daily, span, input);
    const { start, end, startDay, endDay } = span;
    if (index + 1 < recorded.length) searches.push({ start, end, startDay, endDay, ...search });
    const falls = search.falls.filter(
      ({ day }) => !input.explainedFalls.some((explained) => Math.abs(explained - day) <= SAME_FALL_DAYS),
    );
    probableCleanings.push(...falls);
    return splitAtFalls(daily, span, falls);
  });
  return { spans, probableCleanings, searches };
}

/** What was found before in a cycle that had ended and has not changed since; null where it has to be looked for again. */
function knownSearch(span: CycleSpan, { known, allowance }: SpansInput): StepSearch | null {
  if (known === undefined || !(span.endDay < known.changedSinceDay)) return null;
  const own = known.searches.find(
    ({ start, end, startDay, endDay }) =>
      start === span.start && end === span.end && startDay === span.startDay && endDay === span.endDay,
  );
  if (own === undefined) return null;
  const { falls, deviation, least } = own;
  return searchWith({ falls, deviation, least }, allowance);
}

function splitAtFalls(daily: DailyColumns, span: CycleSpan, falls: readonly StepDown[]): BegunSpan[] {
  const began = span.start === null ? 'record' : 'cleaning';
  const rows = falls.map(({ day }) => daily.day.indexOf(day, span.from));
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
