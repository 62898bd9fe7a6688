import type { StatementRecord } from '@/lib/contract/review';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { statementOf } from '@/lib/report/review/statement';
import type { StoredResult } from '@/lib/store/entities/results';
import { findStatement, hasStatementAfter, saveStatement } from '@/lib/store/entities/statements';
import type { StoredUnit } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';
import type { Others } from './other-units';
import { unitInputs } from './unit-inputs';
import { trendOf } from './unit-trend';

/**
 * Keeps what an analysis says of a unit on a local day, for reviews to come. What was said on its day stays: the same day
 * worked out when the record already reached beyond it does not take its place.
 */
export async function keepStatement(
  context: Context,
  stored: StoredUnit,
  trend: UnitTrend,
  day: number,
): Promise<void> {
  const { entities, series } = context.store;
  const span = await series.readingSpan(stored.id);
  const isAfterwards =
    (span !== null && localDay(span.last, stored.site.timeZone) > day) ||
    (await hasStatementAfter(entities, { unitId: stored.id, day }));
  const known = isAfterwards ? await findStatement(entities, { unitId: stored.id, day }) : null;
  if (known !== null && !known.isAfterwards) return;
  await saveStatement(entities, recordOf(context, stored, { trend, day, isAfterwards }));
}

function recordOf(
  context: Context,
  stored: StoredUnit,
  { trend, day, isAfterwards }: { trend: UnitTrend; day: number; isAfterwards: boolean },
): StatementRecord {
  return {
    unitId: stored.id,
    day,
    computedAt: context.now(),
    methodVersion: METHOD_VERSION,
    isAfterwards,
    statement: statementOf(trend),
  };
}

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
  const inputs = await unitInputs(context, stored, { end, isPast: true });
  const trend = trendOf(stored, await context.store.series.readDaily(stored.id), {
    ...inputs,
    asOf: end - 1,
    others,
    known: { trend: result.trend, changedSinceDay: day + 1 },
  });
  const record = recordOf(context, stored, { trend, day, isAfterwards: true });
  await saveStatement(context.store.entities, record);
  return record;
}
