import type { ClientBase } from 'pg';

/** Rows handed on at a time: enough that nobody waits, and few enough where they are large (photographs among them). */
const MOST_ROWS = 2000;
const MOST_BYTES = 8 * 2 ** 20;

/** How many rows to take at once, after the largest row seen so far. */
export class BatchSize {
  #largest = 0;

  /** Nothing is known of the first row. */
  get rows(): number {
    if (this.#largest === 0) return 1;
    return Math.max(1, Math.min(MOST_ROWS, Math.floor(MOST_BYTES / this.#largest)));
  }

  note(row: readonly unknown[]): void {
    const bytes = row.reduce<number>(
      (sum, value) => sum + (typeof value === 'string' || Buffer.isBuffer(value) ? value.length : 8),
      0,
    );
    if (bytes > this.#largest) this.#largest = bytes;
  }
}

/** The rows of an answer of any length, as arrays and some at a time. The client must be in a transaction. */
export async function* cursorRows<Row extends unknown[]>(
  client: ClientBase,
  sql: string,
): AsyncGenerator<Row[], void> {
  await client.query(`DECLARE going_through NO SCROLL CURSOR FOR ${sql}`);
  const size = new BatchSize();
  try {
    for (;;) {
      const asked = size.rows;
      const { rows } = await client.query<Row>({
        text: `FETCH ${asked} FROM going_through`,
        rowMode: 'array',
      });
      for (const row of rows) size.note(row);
      if (rows.length > 0) yield rows;
      if (rows.length < asked) return;
    }
  } finally {
    // A transaction that has failed has closed it already.
    await client.query('CLOSE going_through').catch(() => {});
  }
}
