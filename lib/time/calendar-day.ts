/** Length of a calendar day [ms]. */
export const DAY_MS = 86_400_000;

/** Local day number of `YYYY-MM-DD`; a number is given back. */
export function dayNumber(day: number | string): number {
  return typeof day === 'number' ? Math.floor(day) : Math.round(Date.parse(`${day}T00:00:00Z`) / DAY_MS);
}

/** `YYYY-MM-DD` of a local day number. */
export function isoDay(day: number): string {
  return new Date(Math.floor(day) * DAY_MS).toISOString().slice(0, 10);
}
