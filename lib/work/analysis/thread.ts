import { parentPort, workerData } from 'node:worker_threads';
import { openSeries } from '@/lib/store/series/open-series';
import { type Hearing, hearingOf } from './hearing';
import type { ToThread } from './thread-messages';
import { workOut } from './work-out';

// One thread that works units out: it reads readings and figures over a connection of its own and writes nothing.
const port = parentPort!;
const series = await openSeries(workerData as string);
let hearing: Hearing = hearingOf([]);

port.on('message', async (message: ToThread) => {
  if (message.kind === 'hear') {
    hearing = hearingOf(message.tellings);
    return;
  }
  const { id, tasks } = message;
  try {
    port.postMessage({ id, outcomes: await workOut(series, tasks, { hearing }) });
  } catch (error) {
    port.postMessage({ id, error });
  }
});
