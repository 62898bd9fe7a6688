const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** A session that nobody uses ends after so long [ms]: a shift and its handover (ASVS 5 V7.3.1). */
export const IDLE_LIMIT_MS = 12 * HOUR;

/** Every session ends so long after sign-in [ms], used or not (ASVS 5 V7.3.2). */
export const ABSOLUTE_LIMIT_MS = 7 * DAY;

/** Use is written down no more often than this [ms]: a page with many parts must not write for each of them. */
export const LAST_USE_STEP_MS = MINUTE;
