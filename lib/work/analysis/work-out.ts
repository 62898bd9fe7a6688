import { frozenReachedFrom } from '@/lib/core/checks/frozen-sensors';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { basisAt, evaluationReached } from '@/lib/core/fouling/evaluate-over';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import type { KnownTrend } from '@/lib/core/pipeline/standing';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay, joinDaily, upToLocalDay } from '@/lib/core/series/slice-daily';
import { unitSummary } from '@/lib/report/fleet/unit-summary';
import { statementOf } from '@/lib/report/review/statement';
import { unitResult } from '@/lib/report/unit-result';
import { lastingFromText, trendText } from '@/lib/store/entities/trend-text';
import type { StoredUnit } from '@/lib/store/entities/units';
import {
  type AnalysedUnit,
  type KnownResult,
  NO_READING,
  type WrittenResult,
} from '@/lib/store/series/analysis-store';
import { firstDayOf, monthOf, toBlocks } from '@/lib/store/series/daily-block';
import type { SeriesStore } from '@/lib/store/series/series-store';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { Others } from '../other-units';
import { inputsOf, storedUnit, type UnitInputs } from '../unit-inputs';
import { dailyOf, trendOf } from '../unit-trend';
import { type Hearing, serviceOf, tellingOf } from './hearing';
import { endOf, type Read, readFor } from './read-for';
import type { UnitOutcome, UnitTask } from './unit-task';

const BEGINNING = 0;
const NEVER = Number.POSITIVE_INFINITY;

/** Works some units out one after the other: daily figures from the first changed day on, then the trend. */
export async function workOut(
  series: SeriesStore,
  tasks: readonly UnitTask[],
  { hearing, signal }: { hearing: Hearing; signal?: AbortSignal | undefined },
): Promise<UnitOutcome[]> {
  const outcomes: UnitOutcome[] = [];
  const read = await readFor(series, tasks);
  for (const task of tasks) {
    if (signal?.aborted) break;
    const { unitId } = task.taken;
    try {
      outcomes.push({ unitId, analysed: await workOutUnit(series, task, { hearing, ...read(task) }) });
    } catch (error) {
      outcomes.push({ unitId, error });
    }
  }
  return outcomes;
}

function listener({ dossier, asOf }: UnitTask) {
  return { unitId: dossier.id, service: serviceOf(storedUnit(dossier).unit), asOf };
}

async function workOutUnit(
  series: SeriesStore,
  task: UnitTask,
  { hearing, known, nominal, daily: kept }: Read & { hearing: Hearing },
): Promise<AnalysedUnit> {
  const { dossier, taken, phase, isPast, ends, now } = task;
  const stored = storedUnit(dossier);
  const end = endOf(task);
  const changedSince = phase === 'told' || taken.since >= NO_READING ? NEVER : taken.since;
  const isByOther = known === null || isMadeByOther(known, { stored, nominal });
  const inputs = await inputsOf(series, dossier, {
    ...{ end, isPast, now, ends, nominal },
    changedFrom: isByOther ? null : changedSince,
  });
  // Written and read by the same code, so that equal bases are equal texts.
  const basis = JSON.stringify(inputs.plan);
  const since = isByOther || known.basis !== basis ? BEGINNING : changedSince;
  const changed = await changedDays(series, { stored, inputs, since, end });
  const daily =
    changed === null ? kept : joinDaily([upToLocalDay(kept, changed.fromDay - 1), changed.figures]);
  const others = hearing.othersOf(listener(task));
  const trend = trendOf(stored, daily, {
    ...inputs,
    asOf: task.asOf ?? now,
    others,
    known: since === BEGINNING ? undefined : knownTrend(known!, stored, since),
  });
  return {
    ...{ unitId: stored.id, mark: taken.mark },
    after: isPast ? 'as-before' : phase === 'own' ? 'told' : 'done',
    written: {
      ...writtenTrend(task, { stored, inputs, daily, trend, others }),
      ...{ nominal, basis, reference: inputs.learned },
      daily:
        changed === null
          ? null
          : { fromMonth: monthOf(changed.fromDay), blocks: blocksFrom(daily, changed.fromDay) },
    },
  };
}

/** Whether results were made with another method or datasheet, or with other sensors taken for nominal. */
function isMadeByOther(known: KnownResult, now: { stored: StoredUnit; nominal: number }): boolean {
  return (
    known.methodVersion !== METHOD_VERSION ||
    known.unitVersion !== now.stored.version ||
    known.nominal !== now.nominal
  );
}

type Changed = { stored: StoredUnit; inputs: UnitInputs; since: number; end: number };

/**
 * Daily figures of the days that a change since `since` can reach, from the readings; earlier ones stand. A reading's
 * screening looks at most CHECK_REACH_MS to either side, and mostly less.
 */
async function changedDays(
  series: SeriesStore,
  { stored, inputs, since, end }: Changed,
): Promise<{ fromDay: number; figures: DailyColumns } | null> {
  if (!Number.isFinite(since)) return null;
  const { timeZone } = stored.site;
  const readFrom = (day: number) =>
    series.readReadings(stored.id, startOfLocalDay(day, timeZone) - CHECK_REACH_MS, end);
  // Every change reaches so far back; of one that reaches further, more are read.
  const usual = localDay(frozenReachedFrom(since), timeZone);
  const readings = await readFrom(usual);
  // Not from the first reading on: days before it may have lost theirs.
  const fromDay = localDay(evaluationReached(inputs.bases, readings, since), timeZone);
  const needed = fromDay < usual ? await readFrom(fromDay) : readings;
  const from = startOfLocalDay(fromDay, timeZone);
  return { fromDay, figures: fromLocalDay(dailyOf(stored, needed, { ...inputs, from }), fromDay) };
}

function blocksFrom(daily: DailyColumns, fromDay: number) {
  return toBlocks(fromLocalDay(daily, firstDayOf(monthOf(fromDay))));
}

/** The cycles that ended before the first change stand: a change reaches its own screening's reach back. */
function knownTrend({ trend }: KnownResult, { site }: StoredUnit, since: number): KnownTrend {
  const changedSinceDay = Number.isFinite(since) ? localDay(since - CHECK_REACH_MS, site.timeZone) : NEVER;
  return { trend: lastingFromText(trend), changedSinceDay };
}

type Worked = {
  stored: StoredUnit;
  inputs: UnitInputs;
  daily: DailyColumns;
  trend: UnitTrend;
  others: Others;
};

/** What is written of a trend, in the words of the contract and for those who ask for parts of it. */
function writtenTrend(
  task: UnitTask,
  { stored, inputs, daily, trend, others }: Worked,
): Omit<WrittenResult, 'nominal' | 'basis' | 'reference' | 'daily'> {
  const { dossier, supplies, asOf, ends, now } = task;
  const { timeZone } = stored.site;
  const today = localDay(asOf ?? now, timeZone);
  const end = endOf(task);
  const result = unitResult({
    ...stored,
    supplies,
    cleanings: dossier.cleanings.filter(({ at }) => at < end),
    exchanger: basisAt(inputs.bases, asOf ?? now).exchanger,
    daily: upToLocalDay(daily, today),
    trend,
    today,
    asOf,
  });
  return {
    ...{ asOf, computedAt: now, methodVersion: METHOD_VERSION, unitVersion: stored.version },
    result: JSON.stringify(result),
    trend: trendText(trend),
    telling: JSON.stringify(tellingOf(stored.unit, trend, others)),
    summary: JSON.stringify(unitSummary({ trend, result, daily })),
    statement: {
      day: today,
      isBehind: ends !== null && localDay(ends.last, timeZone) > today,
      statement: statementOf(trend),
    },
  };
}
