import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';

/** The reading to work out and its neighbours, as rows of the evaluation; null where there is none. */
export type PickedReading = { row: number; previous: number | null; next: number | null };

/**
 * The accepted reading nearest to an instant; the newest accepted one without an instant. A reading that was left out is
 * picked only when asked for exactly, to show why.
 */
export function pickReading({ time, reasons }: EvaluationColumns, at: number | null): PickedReading | null {
  const exact = at === null ? -1 : time.indexOf(at);
  const row = exact >= 0 ? exact : nearestAccepted(time, reasons, at);
  if (row < 0) return null;
  return { row, previous: acceptedFrom(reasons, row, -1), next: acceptedFrom(reasons, row, 1) };
}

function nearestAccepted(time: Float64Array, reasons: Uint32Array, at: number | null): number {
  let best = -1;
  for (let i = 0; i < time.length; i++) {
    if (reasons[i] !== 0) continue;
    const isNearer = at === null || best < 0 || Math.abs(time[i]! - at) < Math.abs(time[best]! - at);
    if (isNearer) best = i;
  }
  return best;
}

function acceptedFrom(reasons: Uint32Array, row: number, direction: -1 | 1): number | null {
  for (let i = row + direction; i >= 0 && i < reasons.length; i += direction) {
    if (reasons[i] === 0) return i;
  }
  return null;
}
