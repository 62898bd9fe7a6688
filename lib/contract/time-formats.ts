/**
 * How a file writes its times: the order of day and month, or what its plain numbers count.
 *
 * - `iso`: year first, `2026-10-25 02:30` or `2026/10/25 02:30`
 * - `day-first`: `25.10.2026 02:30`, `25/10/2026 02:30`, `25-Oct-26 02:30`
 * - `month-first`: `10/25/2026 2:30 AM`
 * - `epoch-seconds`, `epoch-milliseconds`: since 1970-01-01T00:00Z
 * - `excel-serial`: days since 30 December 1899 of the local clock, as spreadsheets count them
 */
export const TIME_FORMATS = [
  'iso',
  'day-first',
  'month-first',
  'epoch-seconds',
  'epoch-milliseconds',
  'excel-serial',
] as const;

export type TimeFormat = (typeof TIME_FORMATS)[number];

/** Each format in a person's words. */
export const TIME_FORMAT_WORDS: Record<TimeFormat, string> = {
  iso: 'year, month, day (2026-10-25 02:30)',
  'day-first': 'day, month, year (25.10.2026 02:30)',
  'month-first': 'month, day, year (10/25/2026 2:30 AM)',
  'epoch-seconds': 'seconds since 1970 (UTC)',
  'epoch-milliseconds': 'milliseconds since 1970 (UTC)',
  'excel-serial': 'days since 1899-12-30, as spreadsheets count',
};
