/**
 * The day before which a cleaning must start, for a limit within a day: whoever starts on that day or later is late, and
 * whoever starts before it is not. Mostly the day after the limit's own, for on its own day there is time until the limit.
 *
 * @param deadline the limit [local days]
 * @param start of the cleaning, null where there is none [local days]
 * @returns whole local day
 */
export function cleanBefore(deadline: number, start: number | null): number {
  const after = Math.ceil(deadline);
  if (start === null) return after;
  if (start > deadline) return start >= after ? after : Math.floor(deadline);
  return start < after ? after : after + 1;
}
