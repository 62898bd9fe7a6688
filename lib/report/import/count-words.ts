import type { StatusCells } from '@/lib/contract/import-report';
import { formatNumber } from '@/lib/report/format/figure';

type Counts = { read: number; added: number; replaced: number; unchanged: number; setAside: number };

/** "8,736 rows read: 8,730 added, none replaced, none unchanged, 6 kept aside." */
export function inWords(counts: Counts): string {
  const { read, added, replaced, unchanged, setAside } = counts;
  const parts = [
    `${some(added)} added`,
    `${some(replaced)} replaced`,
    `${some(unchanged)} unchanged`,
    `${some(setAside)} kept aside`,
  ];
  return `${whole(read)} ${read === 1 ? 'row' : 'rows'} read: ${parts.join(', ')}.`;
}

function some(count: number): string {
  return count === 0 ? 'none' : whole(count);
}

export function whole(count: number): string {
  return formatNumber(count, 0);
}

/** Words named in a sentence at most. */
const NAMED_WORDS = 6;

/** "12 cells hold a status word in place of a value: 8 × bad, 4 × no data. They count as not measured." */
export function statusInWords({ total, byWord }: StatusCells): string {
  const words = Object.entries(byWord).sort(([, a], [, b]) => b - a);
  const named = words.slice(0, NAMED_WORDS).map(([word, count]) => `${whole(count)} × ${word}`);
  const more = words.length > NAMED_WORDS ? ', …' : '';
  const cells = total === 1 ? '1 cell holds' : `${whole(total)} cells hold`;
  const count = total === 1 ? 'It counts' : 'They count';
  return `${cells} a status word in place of a value: ${named.join(', ')}${more}. ${count} as not measured.`;
}
