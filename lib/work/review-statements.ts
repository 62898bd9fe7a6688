import type { StatementRecord } from '@/lib/contract/review';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { statementOf } from '@/lib/report/review/statement';
import type { StoredResult } from '@/lib/store/entities/results';
import { findStatement, saveStatement } from '@/lib/store/entities/statements';
import type { StoredUnit } from '@/lib/store/entities/units';
import type { Store } from '@/lib/store/open-store';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';
import type { Others } from './other-units';
import { pastInputs } from './unit-inputs';
import { trendOf } from './unit-trend';

type Asked = { day: number; result: StoredResult; others: Others };

/** What is being worked out of a database, by unit, day and the result it follows. */
const underWay = new WeakMap<Store, Map<string, Promise<StatementRecord>>>();

/**
 * What would have been said of a unit on a local day for which nothing was kept: from the daily figures up to that day and
 * the cleanings before its end, by the equipment of then. What the fleet lends is that of today, so that a difference
 * between then and now is the unit's own. Several who ask at the same time wait for the one who asked first.
 */
export function replayStatement(
  context: Context,
  stored: StoredUnit,
  asked: Asked,
): Promise<StatementRecord> {
  const { store } = context;
  const running = underWay.get(store) ?? new Map<string, Promise<StatementRecord>>();
  underWay.set(store, running);
  const key = `${stored.id} ${asked.day} ${asked.result.computedAt}`;
  const known = running.get(key);
  if (known !== undefined) return known;
  const working = replay(context, stored, asked).finally(() => running.delete(key));
  running.set(key, working);
  return working;
}

async function replay(
  context: Context,
  stored: StoredUnit,
  { day, result, others }: Asked,
): Promise<StatementRecord> {
  const { entities } = context.store;
  // Somebody may have asked, and been answered, since the caller looked.
  const kept = await findStatement(entities, { unitId: stored.id, day });
  if (kept !== null && isGood(kept, result)) return kept;
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
  await saveStatement(entities, record);
  return record;
}

/** What was said on its day stands. What was worked out afterwards does until anything about the unit is newer. */
export function isGood(kept: StatementRecord, result: StoredResult): boolean {
  if (!kept.isAfterwards) return true;
  return kept.methodVersion === METHOD_VERSION && kept.computedAt >= result.computedAt;
}
