import { formatNumber } from '@/lib/report/format/figure';
import { countOf } from '@/lib/report/format/words';
import type { WideningGroup } from './widening-groups';

/** By how much the bands of a group of units are spread, and by whose record. */
export function wideningInWords({ from, count, least, most, units }: WideningGroup): string {
  const who = countOf(units.length, 'unit');
  if (from === 'none') {
    const known = count === 0 ? 'no past projection' : `only ${countOf(count, 'past projection')}`;
    return `${who}: as fitted, for there ${count === 1 ? 'is' : count === 0 ? 'is' : 'are'} ${known} to go by.`;
  }
  const record =
    from === 'fleet'
      ? `by the ${formatNumber(count, 0)} past projections of the fleet`
      : 'by the unit’s own record, which held the day more rarely than chance explains';
  const spread = most === 1 ? 'no spread needed' : `P10 and P90 ${timesInWords(least, most)} as far from P50`;
  return `${who}: ${spread}, ${record}.`;
}

function timesInWords(least: number, most: number): string {
  const [low, high] = [factorText(least), factorText(most)];
  return low === high ? `${high} times` : `${low} to ${high} times`;
}

/** "1.25"; two decimals are more than any record supports, and enough to tell factors apart. */
export function factorText(factor: number): string {
  return formatNumber(factor, 2);
}
