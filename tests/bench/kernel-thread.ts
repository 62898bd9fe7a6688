import { parentPort, workerData } from 'node:worker_threads';
import { exchangerOf, yearOf } from './kernel-data';
import { whole } from './kernel-ours';
import type { ThreadInput } from './kernel-threads';

// One thread of the bench: it holds every unit-year and works out whichever is the next that no other thread has taken.
const port = parentPort!;
const { kind, units, taken } = workerData as ThreadInput;
const exchanger = exchangerOf(kind);
const years = Array.from({ length: units }, (_, unit) => yearOf(exchanger, 1 + unit));
const next = new Int32Array(taken);

port.on('message', () => {
  let worked = 0;
  for (let unit = Atomics.add(next, 0, 1); unit < units; unit = Atomics.add(next, 0, 1)) {
    whole(exchanger, years[unit]!);
    worked++;
  }
  port.postMessage(worked);
});
port.postMessage(0);
