import { median } from './measure';

/** Each run of a side takes the median of so many of its own. */
export const INNER_RUNS = 3;

/** Median CPU time of a few runs [ms]: what else the machine does counts for neither side. */
export function cpuOf(act: () => unknown): number {
  const times: number[] = [];
  for (let run = 0; run < INNER_RUNS; run++) {
    const before = process.cpuUsage();
    act();
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
  }
  return median(times);
}
