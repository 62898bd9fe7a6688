import { countOf } from '@/lib/report/format/words';
import { percentText } from './energy-format';

/** Below this a change is no change worth a word [-]. */
const LEVEL = 0.005;
/** Where the days counted differ by more than this, the comparison says so [-]. */
const UNLIKE_COVERAGE = 0.1;

/** "12 % more than in the 30 days before"; what was not counted then is said. */
export function changeInWords(
  now: number | null,
  before: number | null,
  { days, counted, countedBefore }: { days: number; counted: number; countedBefore: number },
): string {
  const then = `the ${countOf(days, 'day')} before`;
  if (now === null) return '';
  if (before === null) return `nothing was counted in ${then}`;
  if (!(before > 0)) return `nothing was lost in ${then}`;
  const change = now / before - 1;
  const size =
    Math.abs(change) < LEVEL
      ? `as much as in ${then}`
      : `${percentText(Math.abs(change))} ${change > 0 ? 'more' : 'less'} than in ${then}`;
  const isUnlike = Math.abs(counted - countedBefore) > UNLIKE_COVERAGE * Math.max(counted, countedBefore);
  return isUnlike ? `${size}, with ${countedBefore} unit-days counted then and ${counted} now` : size;
}
