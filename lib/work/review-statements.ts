import type { StatementRecord } from '@/lib/contract/review';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { statementOf } from '@/lib/report/review/statement';
import type { StoredResult } from '@/lib/store/entities/results';
import { saveStatement } from '@/lib/store/entities/statements';
import type { StoredUnit } from '@/lib/store/entities/units';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';
import type { Others } from './other-units';
import { pastInputs } from './unit-inputs';
import { trendOf } from './unit-trend';

/**
 * What would have been said of a unit on a local day for which nothing was kept: from the daily figures up to that day and
 * the cleanings before its end, by the equipment of then. What the fleet lends is that of today, so that a difference
 * between then and now is the unit's own.
 */
export async function replayStatement(
  context: Context,
  stored: StoredUnit,
  { day, result, others }: { day: number; result: StoredResult; others: Others },
): Promise<StatementRecord> {
  const { timeZone } = stored.site;
  const end = startOfLocalDay(day + 1, timeZone);
  const inputs = await pastInputs(context, stored.id, end);
  const trend = trendOf(stored, await context.store.series.readDaily(stored.id), {
    ...inputs,
    asOf: end - 1,
    others,
    known: { trend: result.trend, changedSinceDay: day + 1 },
  });
  const record = {
    unitId: stored.id,
    day,
    computedAt: context.now(),
    methodVersion: METHOD_VERSION,
    isAfterwards: true,
    statement: statementOf(trend),
  };
  await saveStatement(context.store.entities, record);
  return record;
}
