import { setTimeout as pause } from 'node:timers/promises';
import type { AnalysedUnit, Phase, TakenUnit } from '@/lib/store/series/analysis-store';
import type { Context } from '../context';
import { log } from '../log';
import { gather } from './gather';
import { type Hearing, hearingOf } from './hearing';
import { markStale, readFleetStanding, type Todays } from './todays';
import type { Computer, UnitOutcome } from './unit-task';
import { hasEnded, workerName } from './worker-name';

/** Units taken at once [-]: enough for few queries and transactions, few enough to be done within seconds. */
const LARGEST_BATCH = 64;
/** What is due is taken in so many parts at least, so that several can share it and little is lost with one [-]. */
const PARTS = 16;
/** A process that works holds its units for so long, and says so again and again meanwhile [ms]. */
const LEASE_MS = 60_000;
const LEASES_RENEWED = 4;
/** How often units that others hold are asked after [ms]. */
const ASK_AGAIN_MS = 100;
/** A unit that cannot be worked out is not tried again before [ms]. */
const TRY_AGAIN_MS = 10 * 60_000;

export type Working = {
  computer: Computer;
  /** Only these units; null: every one that is due. */
  of?: readonly number[] | null;
  leaseMs?: number;
  /** Stops: what is finished stays, the rest stays due. */
  signal?: AbortSignal | undefined;
  /** Units that have been worked out from what is their own. */
  onDone?: ((units: number) => void) | undefined;
};

/** Errors of units that could not be worked out, by unit. */
export type Failures = Map<number, unknown>;

/** A walk through what is due, by one process. */
type Walk = Required<Pick<Working, 'computer' | 'leaseMs'>> &
  Pick<Working, 'signal' | 'onDone'> & {
    worker: string;
    of: readonly number[] | null;
    todays: Todays;
    /** Units taken at once [-]. */
    batch: number;
    failures: Failures;
    hearing: Hearing;
    /** Revision of what was heard. */
    heard: number;
  };

/**
 * Works through everything that is due until nothing is, together with whatever other processes do the same: first units of
 * which something has changed, and when none of them is left, those to which the rest of the fleet now says something
 * else. So it does not matter to the outcome who works on what, in which order.
 */
export async function workThrough(context: Context, working: Working): Promise<Failures> {
  const { computer, of = null, leaseMs = LEASE_MS, signal, onDone } = working;
  const { analysis } = context.store.series;
  const worker = workerName();
  const walk: Walk = {
    ...{ computer, of, leaseMs, signal, onDone, worker },
    ...{ todays: new Map(), batch: 1, failures: new Map(), hearing: hearingOf([]), heard: Number.NaN },
  };
  const renewal = setInterval(
    () => void analysis.holdOn(worker, leaseMs).catch((error) => log.error({ err: error }, 'lease')),
    leaseMs / LEASES_RENEWED,
  );
  renewal.unref();
  try {
    // A round begins anew when it has changed something; who only waits for others need not look at the whole fleet.
    for (let [left, isBusy] = [true, true]; left && !signal?.aborted; ) {
      for (const other of await analysis.workers()) if (hasEnded(other)) await analysis.letGo(other);
      if (isBusy) await beginRound(context, walk);
      isBusy = (await inLanes(context, walk, 'own')) || (await inLanes(context, walk, 'told'));
      const counts = await analysis.dueCounts(walk.of);
      left = counts.own + counts.told > 0;
      if (left && !isBusy) await pause(ASK_AGAIN_MS, undefined, { signal }).catch(() => {});
    }
  } finally {
    clearInterval(renewal);
    await analysis.letGo(worker);
  }
  return walk.failures;
}

async function beginRound(context: Context, walk: Walk): Promise<void> {
  const fleet = await readFleetStanding(context);
  if (walk.of === null) await markStale(context, fleet);
  walk.todays = fleet.todays;
  const due = walk.of?.length ?? fleet.units.filter(({ isDue }) => isDue).length;
  walk.batch = Math.min(LARGEST_BATCH, Math.max(1, Math.ceil(due / PARTS)));
  await hear(context, walk);
}

async function hear({ store }: Context, walk: Walk): Promise<void> {
  const { analysis } = store.series;
  const revision = await analysis.tellingsRevision();
  if (revision === walk.heard) return;
  const tellings = await analysis.tellings();
  walk.computer.hear(tellings);
  walk.hearing = hearingOf(tellings);
  walk.heard = revision;
}

/** Whether there was anything to do: a batch for each lane, again and again until nothing is left to be taken. */
async function inLanes(context: Context, walk: Walk, phase: Phase): Promise<boolean> {
  let batches = 0;
  const lane = async (): Promise<void> => {
    while (!walk.signal?.aborted) {
      const taken = await take(context, walk, phase);
      if (taken.length === 0) return;
      batches++;
      await doBatch(context, walk, { phase, taken });
    }
  };
  const ended = await Promise.allSettled(Array.from({ length: walk.computer.lanes }, lane));
  for (const end of ended) if (end.status === 'rejected') throw end.reason;
  return batches > 0;
}

function take({ store }: Context, { worker, of, leaseMs, batch }: Walk, phase: Phase): Promise<TakenUnit[]> {
  return store.series.analysis.takeDue({ worker, phase, most: batch, leaseMs, of });
}

async function doBatch(
  context: Context,
  walk: Walk,
  { phase, taken }: { phase: Phase; taken: TakenUnit[] },
): Promise<void> {
  const { computer, signal, todays, worker } = walk;
  const { analysis } = context.store.series;
  if (phase === 'told') await hear(context, walk);
  const isTold = (unit: TakenUnit) => phase === 'told' && walk.hearing.isTold(unit.unitId);
  const told = taken.filter(isTold).map((unit): AnalysedUnit => ({ ...unit, after: 'done', written: null }));
  const rest = taken.filter((unit) => !isTold(unit));
  const tasks = rest.length === 0 ? [] : await gather(context, { phase, taken: rest, todays, asOf: null });
  const outcomes = await computer.workOut(tasks, signal);
  const analysed = outcomes.flatMap((outcome) => ('error' in outcome ? [] : [outcome.analysed]));
  await analysis.saveAnalysed(worker, [...told, ...analysed]);
  await setFailedAside(context, walk, outcomes);
  if (phase === 'own') walk.onDone?.(analysed.length);
  else leaveOut(walk, taken);
}

/** Of units asked for, those that are done are waited for no longer: who goes on changing them would never let it end. */
function leaveOut(walk: Walk, done: readonly TakenUnit[]): void {
  const doneIds = new Set(done.map(({ unitId }) => unitId));
  walk.of = walk.of?.filter((unitId) => !doneIds.has(unitId)) ?? null;
}

async function setFailedAside(
  { store }: Context,
  { worker, failures }: Walk,
  outcomes: readonly UnitOutcome[],
): Promise<void> {
  const failed = outcomes.flatMap((outcome) => ('error' in outcome ? [outcome] : []));
  if (failed.length === 0) return;
  for (const { unitId, error } of failed) {
    failures.set(unitId, error);
    log.error({ err: error, unitId }, 'a unit could not be analysed');
  }
  const unitIds = failed.map(({ unitId }) => unitId);
  await store.series.analysis.setAside(worker, unitIds, TRY_AGAIN_MS);
}
