import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { toBlocks } from '@/lib/store/series/daily-block';
import type { Context } from '@/lib/work/context';

/** Puts daily figures in the place of all that a unit has, past the analysis that writes them otherwise. */
export async function writeDaily(
  { store: { entities } }: Context,
  unitId: number,
  daily: DailyColumns,
): Promise<void> {
  await entities.dailyBlock.deleteMany({ where: { unitId } });
  await entities.dailyBlock.createMany({
    data: toBlocks(daily).map(({ month, figures }) => ({ unitId, month, figures: Uint8Array.from(figures) })),
  });
}
