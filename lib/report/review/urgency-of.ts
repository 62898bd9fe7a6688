import { type ReviewUnit, URGENCIES, type Urgency } from '@/lib/contract/review';

/** Of the most urgent line that nobody has seen yet; null where all are seen. */
export function urgencyOf({ lines }: Pick<ReviewUnit, 'lines'>): Urgency | null {
  return URGENCIES.find((urgency) => lines.some((line) => !line.isSeen && line.urgency === urgency)) ?? null;
}
