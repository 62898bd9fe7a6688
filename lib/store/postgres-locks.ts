/**
 * Advisory locks of a PostgreSQL database, held to the end of a transaction: any numbers that nobody else uses. Whoever needs
 * both takes them in this order.
 */
/** Whoever puts readings into their place, or takes them out again. */
export const IMPORT_LOCK = 7_203_943;
/** Whoever changes entities in a transaction. */
export const ENTITY_LOCK = 7_203_942;

/** Statement that waits for a lock, and has it until the transaction ends. */
export function takeLock(lock: number): string {
  return `SELECT pg_advisory_xact_lock(${lock})`;
}
