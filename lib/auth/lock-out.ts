const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

/** Wrong passwords in a row that cost nothing: people try their old ones. */
export const FREE_ATTEMPTS = 10;

/**
 * Wrong passwords in a row after which none is looked at until an administrator lets the account in again (SP 800-63B-4,
 * 3.2.2: no more than 100 consecutive failed attempts on one account). With the waits before it takes four days to get there.
 */
export const MOST_ATTEMPTS = 100;

const FIRST_WAIT_MS = MINUTE;
const LONGEST_WAIT_MS = HOUR;

/** How long an account waits after so many wrong passwords in a row [ms]; doubles from one minute to one hour. */
export function waitAfter(failures: number): number {
  if (failures < FREE_ATTEMPTS) return 0;
  return Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - FREE_ATTEMPTS));
}

/** Whether an account looks at no password now, and until when [ms]; 'unlocked by an administrator' only is Infinity. */
export function lockedUntil(
  account: { failedSignIns: number; lockedUntil: number | null },
  now: number,
): number | null {
  if (account.failedSignIns >= MOST_ATTEMPTS) return Number.POSITIVE_INFINITY;
  return account.lockedUntil !== null && account.lockedUntil > now ? account.lockedUntil : null;
}
