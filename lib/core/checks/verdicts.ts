import { EVALUATION_FLOAT_COLUMNS, type EvaluationColumns } from '../fouling/evaluation-columns';
import { firstNotBefore } from '../series/first-not-before';
import type { JudgedPeriod } from './judged-period';
import { REASON_BIT } from './reasons';

/** What a person said of each reading: nothing, that it counts, that it does not. */
export const UNJUDGED = 0;
export const INCLUDED = 1;
export const EXCLUDED = 2;

/** Reasons that are a judgement on a number there is; a person may know better. */
const OPEN_TO_JUDGEMENT =
  REASON_BIT['flow-below-turndown'] |
  REASON_BIT['frozen-sensor'] |
  REASON_BIT.spike |
  REASON_BIT['terminal-difference-too-small'] |
  REASON_BIT['balance-not-closed'] |
  REASON_BIT['not-steady'];

/** These may say by NaN that a side was not measured, whatever the mask. */
const MAY_BE_UNMEASURED: ReadonlySet<string> = new Set(['hotDuty', 'coldDuty', 'balance']);
const NEEDED = EVALUATION_FLOAT_COLUMNS.filter((name) => !MAY_BE_UNMEASURED.has(name));

/**
 * What people said of each reading; where periods overlap, the later in the list holds.
 *
 * @param time   instants ascending, length n [ms]
 * @param judged periods [ms], `from` included, `to` not; an empty or reversed one covers nothing
 * @returns UNJUDGED, INCLUDED or EXCLUDED for each reading, length n [-]
 * @range  any
 * @source METHODS §7
 * @check  tests/core/checks/verdicts.test.ts
 */
export function verdictsOn(time: Float64Array, judged: readonly JudgedPeriod[]): Uint8Array {
  const verdicts = new Uint8Array(time.length);
  for (const { from, to, verdict } of judged) {
    if (!(to > from)) continue;
    const code = verdict === 'include' ? INCLUDED : EXCLUDED;
    verdicts.fill(code, firstNotBefore(time, from), firstNotBefore(time, to));
  }
  return verdicts;
}

/**
 * Puts a person's verdict on one evaluated reading into its mask: excluded adds its own reason to whatever else is found;
 * included takes away the judgements, but never a reason that leaves no number to use.
 *
 * @param columns evaluated readings, changed in place
 * @param i       row, its mask complete [-]
 * @param verdict UNJUDGED, INCLUDED or EXCLUDED [-]
 * @returns nothing
 * @range  any; an included reading that lacks a figure all the same keeps its mask
 * @source METHODS §7
 * @check  tests/core/checks/verdicts.test.ts
 */
export function applyVerdict(columns: EvaluationColumns, i: number, verdict: number): void {
  if (verdict === EXCLUDED) columns.reasons[i]! |= REASON_BIT['excluded-by-person'];
  if (verdict !== INCLUDED) return;
  const left = columns.reasons[i]! & ~OPEN_TO_JUDGEMENT;
  if (left !== 0 || NEEDED.every((name) => Number.isFinite(columns[name][i]!))) columns.reasons[i] = left;
}
