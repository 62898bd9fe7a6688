import { setTimeout as pause } from 'node:timers/promises';
import type { Phase, TakenUnit } from '@/lib/store/series/analysis-store';
import type { Context } from '../context';
import { gather } from './gather';
import { hearingOf } from './hearing';
import type { Computer } from './unit-task';
import { workerName } from './worker-name';

const BATCH = 64;
const ASK_AGAIN_MS = 100;
/** Nobody else is to bring a unit up to date while it is looked at as of the past [ms]. */
const LEASE_MS = 10 * 60_000;

export type PastRequest = {
  computer: Computer;
  unitIds: readonly number[];
  /** [ms] */
  asOf: number;
  signal?: AbortSignal | undefined;
  onDone?: ((units: number) => void) | undefined;
};

/**
 * Works units out by what was known before an instant. They stay due from the beginning: results as of a past day must not
 * pass for today's.
 */
export async function analysePast(context: Context, request: PastRequest): Promise<void> {
  const { series } = context.store;
  const worker = workerName();
  await series.markAllDue(request.unitIds, 0);
  try {
    const taken = await takeAll(context, worker, request);
    for (const phase of ['own', 'told'] as const) {
      const tellings = await series.analysis.tellings();
      request.computer.hear(tellings);
      const { isTold } = hearingOf(tellings);
      const rest = phase === 'own' ? taken : taken.filter(({ unitId }) => !isTold(unitId));
      for (let at = 0; at < rest.length && !request.signal?.aborted; at += BATCH)
        await doBatch(context, request, { worker, phase, taken: rest.slice(at, at + BATCH) });
    }
  } finally {
    await series.analysis.letGo(worker);
  }
}

/** Holds all of them, some as soon as another process has let them go. */
async function takeAll(
  { store }: Context,
  worker: string,
  { unitIds, signal }: PastRequest,
): Promise<TakenUnit[]> {
  const taken: TakenUnit[] = [];
  while (taken.length < unitIds.length && !signal?.aborted) {
    const more = await store.series.analysis.takeDue({
      ...{ worker, phase: 'own', leaseMs: LEASE_MS, of: unitIds },
      most: unitIds.length,
    });
    taken.push(...more);
    if (more.length > 0) continue;
    await pause(ASK_AGAIN_MS);
    // What another process has finished meanwhile is no longer due.
    const held = new Set(taken.map(({ unitId }) => unitId));
    await store.series.markAllDue(
      unitIds.filter((unitId) => !held.has(unitId)),
      0,
    );
  }
  return taken.sort((a, b) => a.unitId - b.unitId);
}

async function doBatch(
  context: Context,
  { computer, asOf, signal, onDone }: PastRequest,
  { worker, phase, taken }: { worker: string; phase: Phase; taken: TakenUnit[] },
): Promise<void> {
  const tasks = await gather(context, { phase, taken, todays: new Map(), asOf });
  const outcomes = await computer.workOut(tasks, signal);
  for (const outcome of outcomes) if ('error' in outcome) throw outcome.error;
  const analysed = outcomes.flatMap((outcome) => ('error' in outcome ? [] : [outcome.analysed]));
  await context.store.series.analysis.saveAnalysed(worker, analysed);
  if (phase === 'own') onDone?.(analysed.length);
}
