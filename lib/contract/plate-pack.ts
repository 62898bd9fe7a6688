import type { Arrangement } from '@/lib/core/exchange/exchanger';
import type { PlatePack } from '@/lib/core/exchange/plate-channel';
import type { Unit } from './fleet-file';
import { inSi } from './quantity';

/** A unit's plates as the numeric core sees them; null unless gap and width of the channels are stated. */
export function platePackOf(plates: Unit['plates'], arrangement: Arrangement): PlatePack | null {
  if (plates?.channelGap === undefined || plates.channelWidth === undefined) return null;
  const passes = arrangement.kind === 'plate' ? arrangement : { hotPasses: 1, coldPasses: 1 };
  return {
    count: plates.count,
    channelGap: inSi(plates.channelGap, 'length'),
    channelWidth: inSi(plates.channelWidth, 'length'),
    hotPasses: passes.hotPasses,
    coldPasses: passes.coldPasses,
  };
}
