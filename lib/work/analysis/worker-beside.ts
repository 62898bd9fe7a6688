/** A process beside this one that works through whatever is due; null: none, or not at the moment. */
export type WorkerBeside = { wake: () => void };

const BESIDE = Symbol.for('cleanby.workerBeside');
type Holder = { [BESIDE]?: WorkerBeside | null };

/** The bundled application has modules of its own: what both it and the server know is the process. */
export function workerBeside(): WorkerBeside | null {
  return (globalThis as Holder)[BESIDE] ?? null;
}

export function setWorkerBeside(worker: WorkerBeside | null): void {
  (globalThis as Holder)[BESIDE] = worker;
}
