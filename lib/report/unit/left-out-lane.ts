import { REASONS, type Reason, reasonsOf } from '@/lib/core/checks/reasons';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import type { ChartLane, ChartSpan } from '@/lib/report/format/chart-view';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { REASON_WORDS } from '@/lib/report/format/words';

/** Readings of one stretch, how many of them were left out, and for which reasons. */
export type Tally = {
  from: number;
  to: number;
  readings: number;
  leftOut: number;
  reasons: Map<Reason, number>;
};

/** From this share on a stretch counts as left out for the most part, and its reason is named [-] (own choice). */
const MOSTLY = 0.5;
const HOUR_MS = 3_600_000;
/** A name shorter than this share of the axis finds no room on any screen [-] (own choice). */
const LEAST_NAMED_SHARE = 0.04;
/** A person's own word is named by its label, not by its code. */
export const BY_PERSON: Reason = 'excluded-by-person';

/** Counts the readings of an axis in equal stretches, in order of time; those without a reading are absent. */
export function tallyReadings(evaluation: EvaluationColumns, axis: TimeAxis, buckets: number): Tally[] {
  const end = axis.today ?? axis.end;
  // Where every row is wanted, what was left out is told by the hour.
  const width = (end - axis.from) / Math.min(buckets, (end - axis.from) / HOUR_MS);
  const tallies = new Map<number, Tally>();
  evaluation.time.forEach((at, i) => {
    if (at < axis.from || at > end) return;
    const index = Math.min(Math.ceil((end - axis.from) / width) - 1, Math.floor((at - axis.from) / width));
    const tally = tallies.get(index) ?? emptyTally(axis.from + index * width, width);
    tallies.set(index, tally);
    tally.readings++;
    if (evaluation.reasons[i] === 0) return;
    tally.leftOut++;
    for (const reason of reasonsOf(evaluation.reasons[i]!))
      tally.reasons.set(reason, (tally.reasons.get(reason) ?? 0) + 1);
  });
  return [...tallies.values()];
}

function emptyTally(from: number, width: number): Tally {
  return { from, to: from + width, readings: 0, leftOut: 0, reasons: new Map() };
}

/** Bars and names of the lane from tallies in order of time; stretches that look alike are drawn as one. */
export function laneOf(tallies: readonly Tally[], axis: TimeAxis): Pick<ChartLane, 'bars' | 'names'> {
  const bars: ChartLane['bars'] = [];
  const names: (ChartSpan & { reason: Reason })[] = [];
  for (const { from, to, readings, leftOut, reasons } of tallies) {
    if (leftOut === 0) continue;
    const share = Math.round((leftOut / readings) * 10) / 10 || 0.1;
    const bar = bars.at(-1);
    if (bar !== undefined && touches(bar, from) && bar.share === share) bar.to = to;
    else bars.push({ from, to, share });
    const reason = mainReason(reasons);
    if (reason === null || reason === BY_PERSON || leftOut < MOSTLY * readings) continue;
    const name = names.at(-1);
    if (name !== undefined && touches(name, from) && name.reason === reason) name.to = to;
    else names.push({ from, to, reason, label: REASON_WORDS[reason] });
  }
  const least = LEAST_NAMED_SHARE * (axis.end - axis.from);
  return {
    bars,
    names: names.filter(({ from, to }) => to - from >= least).map(({ reason: _, ...span }) => span),
  };
}

/** Neighbours meet to the rounding of their instants. */
function touches({ to }: { to: number }, from: number): boolean {
  return Math.abs(from - to) < 1;
}

function mainReason(reasons: Map<Reason, number>): Reason | null {
  const [most] = [...reasons].sort(([a, m], [b, n]) => n - m || REASONS.indexOf(a) - REASONS.indexOf(b));
  return most?.[0] ?? null;
}

/** "left out: spikes" of one reading, "3 of 12 left out: spikes 2, not steady 1" of several; null where nothing was. */
export function remarkOf({ readings, leftOut, reasons }: Tally): string | null {
  if (leftOut === 0) return null;
  const ranked = [...reasons].filter(([reason]) => reason !== BY_PERSON).sort(([, m], [, n]) => n - m);
  // The person's own words stand beside the remark.
  if (ranked.length === 0) return leftOut === readings ? null : `${leftOut} of ${readings} left out`;
  if (readings === 1) return `left out: ${ranked.map(([reason]) => REASON_WORDS[reason]).join(', ')}`;
  const counts = ranked.map(([reason, count]) => `${REASON_WORDS[reason]} ${count}`);
  return `${leftOut} of ${readings} left out: ${counts.join(', ')}`;
}

/** The remark of the stretch that holds each of some instants. */
export function remarksAt(tallies: readonly Tally[], time: ArrayLike<number>): (string | null)[] {
  let index = 0;
  return Array.from(time, (at) => {
    while (index < tallies.length - 1 && at >= tallies[index]!.to) index++;
    const tally = tallies[index];
    // Instants of a stretch may lie outside it by the rounding of its ends.
    return tally === undefined || at < tally.from - 1 || at > tally.to + 1 ? null : remarkOf(tally);
  });
}
