import { formatNumber } from '@/lib/report/format/figure';
import type { Life } from './record-address';
import { AIM, type RecordSummary, verdictOf } from './record-summary';

/** When in its cycle a projection was made. */
export const LIFE_WORDS: Record<Life, string> = {
  25: 'a quarter of the way',
  50: 'half way',
  75: 'three quarters of the way',
};

/** What a manager wants to know: how often it came true, how far it was off, whether that is as promised. */
export function recordInWords(summary: RecordSummary, life: Life): { main: string; detail: string } {
  const { count, held } = summary;
  const made = count === 1 ? 'The one past projection' : `Of ${formatNumber(count, 0)} past projections`;
  const came =
    count === 1
      ? held === 1
        ? 'came true within its band'
        : 'did not come true within its band'
      : `${formatNumber(held, 0)} came true within their band`;
  const main = `${made} made ${LIFE_WORDS[life]} through a cycle${count === 1 ? '' : ','} ${came}`;
  const within = withinInWords(summary);
  return { main, detail: [within, verdictInWords(summary)].filter((part) => part !== '').join(' ') };
}

function withinInWords({ count, medianErrorDays, medianErrorShare }: RecordSummary): string {
  if (count < 2) return '';
  if (medianErrorDays === null || medianErrorShare === null)
    return 'Half of them or more gave no day at all.';
  return `Half of them were within ${daysInWords(medianErrorDays)}, and half within ${percentOf(medianErrorShare)} of the time that was left.`;
}

/** Where the aim stands against what chance allows. */
function verdictInWords(summary: RecordSummary): string {
  const { interval, heldShare } = summary;
  const verdict = verdictOf(summary);
  if (verdict === null || interval === null || heldShare === null) return '';
  const aim = `P10 to P90 should hold ${percentOf(AIM)}`;
  const found = `it held ${percentOf(heldShare)} (by chance ${percentOf(interval.low)} to ${percentOf(interval.high)})`;
  if (verdict === 'too-sure') return `${aim}; ${found}: too sure of itself.`;
  if (verdict === 'too-wide') return `${aim}; ${found}: more careful than it need be.`;
  return `${aim}; ${found}: no worse and no better than promised.`;
}

/** "6 days", "1 day", "0.5 days"; none below half a day. */
export function daysInWords(days: number): string {
  const rounded = Math.round(days * 2) / 2;
  const text = formatNumber(rounded, Number.isInteger(rounded) ? 0 : 1);
  return `${text} ${rounded === 1 ? 'day' : 'days'}`;
}

/** "82 %"; one decimal below 10 %. */
export function percentOf(share: number): string {
  const percent = 100 * share;
  return `${formatNumber(percent, percent > 0 && percent < 9.95 ? 1 : 0)} %`;
}

/** "4 days late", "12 days early", "on the day", "no day given": how it stood to the day that came. */
export function errorInWords(errorDays: number | null): string {
  if (errorDays === null) return 'no day given';
  if (errorDays === 0) return 'on the day';
  return `${daysInWords(Math.abs(errorDays))} too ${errorDays > 0 ? 'late' : 'early'}`;
}
