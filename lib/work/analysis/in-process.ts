import { setImmediate as otherWork } from 'node:timers/promises';
import type { SeriesStore } from '@/lib/store/series/series-store';
import { type Hearing, hearingOf } from './hearing';
import type { Computer, UnitOutcome } from './unit-task';
import { workOut } from './work-out';

/** Works units out in this thread, with whatever else it has to do between one unit and the next. */
export function inProcess(series: SeriesStore): Computer {
  let hearing: Hearing = hearingOf([]);
  return {
    lanes: 1,
    hear: (tellings) => {
      hearing = hearingOf(tellings);
    },
    workOut: async (tasks, signal) => {
      const outcomes: UnitOutcome[] = [];
      for (const task of tasks) {
        if (signal?.aborted) break;
        outcomes.push(...(await workOut(series, [task], { hearing, signal })));
        await otherWork();
      }
      return outcomes;
    },
    close: async () => {},
  };
}
