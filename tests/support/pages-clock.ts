/** "Now" of the browser tests and their demo fleet: pictures and dates are the same on every day. */
export const PAGES_NOW = '2026-11-25T08:00:00Z';
