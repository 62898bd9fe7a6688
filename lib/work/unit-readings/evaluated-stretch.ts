import { setImmediate } from 'node:timers/promises';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { type Basis, evaluateOver } from '@/lib/core/fouling/evaluate-over';
import {
  copyEvaluation,
  type EvaluationColumns,
  makeEvaluationColumns,
} from '@/lib/core/fouling/evaluation-columns';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { changedStretches, type Stretch } from './changed-stretches';

/** What readings are judged by: the same of all three gives the same figures. */
export type Judging = { bases: readonly Basis[]; nominal: number; judged: readonly JudgedPeriod[] };

/**
 * Readings of a unit and their evaluation. The evaluation holds for from ≤ time < to [ms]; the readings go on for the reach
 * of the screening to either side, where nothing is evaluated.
 */
export type EvaluatedStretch = Stretch & { readings: ReadingColumns; evaluation: EvaluationColumns };

/** Readings evaluated at once before others get their turn on the thread [-]: about a hundredth of a second's work. */
const ROWS_A_TURN = 2000;

/** The instants whose readings must be known to evaluate a stretch [ms]. */
export function reachOf({ from, to }: Stretch): Stretch {
  return { from: from - CHECK_REACH_MS, to: to + CHECK_REACH_MS };
}

/**
 * Evaluates a stretch, taking over what was evaluated before wherever no reading within the reach of the screening has
 * changed. Others get their turn in between.
 *
 * @param readings readings of the unit within `reachOf(stretch)`
 * @param before   an evaluation of the same unit by the same judging; null where there is none
 */
export async function evaluateStretch(
  { from, to }: Stretch,
  readings: ReadingColumns,
  { judging, before }: { judging: Judging; before: EvaluatedStretch | null },
): Promise<EvaluatedStretch> {
  const { time } = readings;
  const evaluation = makeEvaluationColumns(time.length);
  evaluation.time.set(time);
  const inside = { first: firstNotBefore(time, from), end: firstNotBefore(time, to) };
  const open = before === null ? [{ from, to }] : notTakenOver({ from, to }, readings, before);
  if (before !== null) takeOver(evaluation, before, inside);
  for (const stretch of open) {
    const first = Math.max(inside.first, firstNotBefore(time, stretch.from));
    const end = Math.min(inside.end, firstNotBefore(time, stretch.to));
    for (let start = first; start < end; start += ROWS_A_TURN) {
      evaluateRows(evaluation, readings, {
        judging,
        rows: { first: start, end: Math.min(end, start + ROWS_A_TURN) },
      });
      await setImmediate();
    }
  }
  return { from, to, readings, evaluation };
}

/** Where the earlier evaluation does not reach, or a reading changed near enough to count. */
function notTakenOver({ from, to }: Stretch, readings: ReadingColumns, before: EvaluatedStretch): Stretch[] {
  const outside = [
    { from, to: Math.min(to, before.from) },
    { from: Math.max(from, before.to), to },
  ].filter((stretch) => stretch.from < stretch.to);
  const changed = changedStretches(before.readings, readings).map(reachOf);
  return joined([...outside, ...changed]);
}

function joined(stretches: Stretch[]): Stretch[] {
  const whole: Stretch[] = [];
  for (const { from, to } of stretches.sort((a, b) => a.from - b.from)) {
    const last = whole.at(-1);
    if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
    else whole.push({ from, to });
  }
  return whole;
}

/** Copies what was evaluated before, run by run of instants that both have; what must not be kept is overwritten later. */
function takeOver(
  evaluation: EvaluationColumns,
  before: EvaluatedStretch,
  { first, end }: { first: number; end: number },
): void {
  const old = before.evaluation.time;
  const oldEnd = firstNotBefore(old, before.to);
  let from = firstNotBefore(old, Math.max(before.from, evaluation.time[first] ?? Number.POSITIVE_INFINITY));
  let to = first;
  while (from < oldEnd && to < end) {
    if (old[from]! < evaluation.time[to]!) from++;
    else if (old[from]! > evaluation.time[to]!) to++;
    else {
      let length = 1;
      while (
        from + length < oldEnd &&
        to + length < end &&
        old[from + length] === evaluation.time[to + length]
      )
        length++;
      copyEvaluation(evaluation, before.evaluation, { from, to: from + length, at: to });
      from += length;
      to += length;
    }
  }
}

function evaluateRows(
  evaluation: EvaluationColumns,
  readings: ReadingColumns,
  { judging, rows: { first, end } }: { judging: Judging; rows: { first: number; end: number } },
): void {
  const { time } = readings;
  const { from, to } = reachOf({ from: time[first]!, to: time[end - 1]! + 1 });
  const [start, stop] = [firstNotBefore(time, from), firstNotBefore(time, to)];
  const part = evaluateOver(judging.bases, sliceReadings(readings, start, stop), judging);
  copyEvaluation(evaluation, part, { from: first - start, to: end - start, at: first });
}
