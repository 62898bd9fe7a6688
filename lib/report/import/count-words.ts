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
