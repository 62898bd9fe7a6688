import { AppError } from '@/lib/contract/app-error';
import type { UnitStanding } from '@/lib/store/series/analysis-store';
import { NO_READING } from '@/lib/store/series/analysis-store';
import { isoInZone } from '@/lib/time/local-day';
import { analysePast } from './analysis/analyse-past';
import { inProcess } from './analysis/in-process';
import { leftToWorker } from './analysis/left-to-worker';
import { type Fleet, isCurrent, readFleetStanding } from './analysis/todays';
import type { Computer } from './analysis/unit-task';
import { workThrough } from './analysis/work-through';
import type { Context } from './context';
import { log } from './log';

export type AnalyseRequest = {
  /** One unit only; null = all. */
  tag?: string | null;
  /** Use only readings and cleanings before this instant [ms]; null = up to each site's newest reading. */
  asOf?: number | null;
  /** Work everything out anew, whether or not it is due. */
  all?: boolean;
  onProgress?: (done: number, of: number) => void;
  /** Stops it: what is finished stays, the rest stays due. */
  signal?: AbortSignal;
  /** Who works the units out, given how many they are; else whoever the context names, or this thread. */
  computer?: (units: number) => Computer | Promise<Computer>;
};

export type Analysed = { analysed: string[]; upToDate: number; asOf: Record<string, string | null> };

/**
 * Brings results up to date: units whose readings, cleanings or datasheet changed, and all units of a site whose newest
 * reading has moved to another day. "Today" is each site's newest reading, so that an old record is judged as of its end.
 *
 * @throws AppError 'not-found' for an unknown tag
 */
export async function analyse(context: Context, request: AnalyseRequest = {}): Promise<Analysed> {
  const { tag = null, asOf = null, all = false } = request;
  const fleet = await readFleetStanding(context);
  const wanted = inOrderOfTags(tag === null ? fleet.units : fleet.units.filter((unit) => unit.tag === tag));
  if (tag !== null && wanted.length === 0) throw new AppError('not-found', `There is no unit "${tag}"`);
  const todo = wanted.filter((unit) => all || asOf !== null || unit.isDue || !isCurrent(unit, fleet));
  const began = performance.now();
  if (todo.length > 0) await workOn(context, request, todo);
  const left = request.signal?.aborted ? await notDone(context, todo) : [];
  const analysed = todo.filter((unit) => !left.includes(unit));
  if (analysed.length > 0)
    log.info({ units: analysed.length, ms: Math.round(performance.now() - began) }, 'analysed');
  return {
    analysed: analysed.map((unit) => unit.tag),
    upToDate: wanted.length - todo.length,
    asOf: Object.fromEntries(wanted.map(({ siteId }) => dayOf(siteId, { fleet, asOf }))),
  };
}

/** The same order on every database. */
function inOrderOfTags(units: readonly UnitStanding[]): UnitStanding[] {
  return [...units].sort((a, b) => (a.tag < b.tag ? -1 : 1));
}

async function workOn(
  context: Context,
  request: AnalyseRequest,
  todo: readonly UnitStanding[],
): Promise<void> {
  const { asOf = null, all = false, onProgress, signal } = request;
  const { series } = context.store;
  const unitIds = todo.map(({ unitId }) => unitId);
  const progress = { onDone: progressOf(todo.length, onProgress), signal };
  if (asOf !== null) {
    return withComputer(context, request, todo.length, (computer) =>
      analysePast(context, { computer, unitIds, asOf, ...progress }),
    );
  }
  // From the beginning, or where nothing of its own has changed, to be judged as of another day.
  const unmarked = all ? unitIds : todo.filter(({ isDue }) => !isDue).map(({ unitId }) => unitId);
  if (unmarked.length > 0) await series.markAllDue(unmarked, all ? 0 : NO_READING);
  if (await leftToWorker(context, unitIds, signal)) {
    return complainOf(await notDone(context, todo));
  }
  const failures = await withComputer(context, request, todo.length, (computer) =>
    workThrough(context, { computer, of: unitIds, ...progress }),
  );
  for (const error of failures.values()) throw error;
}

function progressOf(of: number, onProgress: AnalyseRequest['onProgress']): (units: number) => void {
  let done = 0;
  return (units) => {
    done = Math.min(of, done + units);
    onProgress?.(done, of);
  };
}

async function withComputer<T>(
  { store, computer: usual }: Context,
  { computer: chosen = usual }: AnalyseRequest,
  units: number,
  work: (computer: Computer) => Promise<T>,
): Promise<T> {
  const computer = (await chosen?.(units)) ?? inProcess(store.series);
  try {
    return await work(computer);
  } finally {
    await computer.close();
  }
}

async function notDone({ store }: Context, todo: readonly UnitStanding[]): Promise<UnitStanding[]> {
  const due = await store.series.due();
  return todo.filter(({ unitId }) => due.has(unitId));
}

/** What another process has set aside: its log says why. */
function complainOf(failed: readonly UnitStanding[]): void {
  if (failed.length > 0) throw new Error(`could not be analysed: ${failed.map(({ tag }) => tag).join(', ')}`);
}

type Days = { fleet: Fleet; asOf: number | null };

/** Name of a site, and the day it has come to. */
function dayOf(siteId: number, { fleet, asOf }: Days): [string, string | null] {
  const { name, timeZone } = fleet.sites.get(siteId)!;
  const today = asOf ?? fleet.todays.get(siteId) ?? null;
  return [name, today === null ? null : isoInZone(today, timeZone)];
}
