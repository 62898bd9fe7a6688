import type { MarkRecord, ReviewLine } from '@/lib/contract/review';
import { isoInZone } from '@/lib/time/local-day';

/** What people did about a line: the last word of each kind holds, all of them are shown. */
export function lineMarks(
  marks: readonly MarkRecord[],
  timeZone: string,
): Pick<ReviewLine, 'isSeen' | 'assignedTo' | 'marks'> {
  const seen = marks.findLast(({ kind }) => kind === 'seen' || kind === 'reopened');
  const assigned = marks.findLast(({ kind }) => kind === 'assigned');
  return {
    isSeen: seen?.kind === 'seen',
    assignedTo: assigned?.text ?? null,
    marks: marks.map(({ kind, text, by, at }) => ({ kind, text, by, at: isoInZone(at, timeZone) })),
  };
}
