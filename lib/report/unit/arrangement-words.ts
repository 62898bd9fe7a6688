import type { Unit } from '@/lib/contract/fleet-file';
import type { Arrangement } from '@/lib/core/exchange/exchanger';

const MIXED_WORDS = {
  none: 'neither stream mixed',
  hot: 'hot stream mixed',
  cold: 'cold stream mixed',
  both: 'both streams mixed',
} as const;

/** "counter-current", "2 shell passes, 4 tube passes", "crossflow, cold stream mixed", "plate 1-1, counter flow". */
export function arrangementInWords(arrangement: Arrangement): string {
  switch (arrangement.kind) {
    case 'counter-current':
    case 'co-current':
      return arrangement.kind;
    case 'shell-and-tube':
      return `${passes(arrangement.shellPasses, 'shell pass')}, ${passes(arrangement.tubePasses, 'tube pass')}`;
    case 'crossflow':
      return `crossflow, ${MIXED_WORDS[arrangement.mixed]}`;
    case 'plate':
      return `plate passes ${arrangement.hotPasses}-${arrangement.coldPasses}, ${arrangement.flow} flow`;
  }
}

const CONSTRUCTION_WORDS: Record<NonNullable<Unit['construction']>, string> = {
  plate: 'plate heat exchanger',
  'shell-and-tube': 'shell-and-tube heat exchanger',
  'double-pipe': 'double-pipe heat exchanger',
  'air-cooled': 'air-cooled heat exchanger',
  other: 'heat exchanger',
};

export function constructionInWords(construction: Unit['construction']): string {
  return CONSTRUCTION_WORDS[construction ?? 'other'];
}

function passes(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 'es'}`;
}
