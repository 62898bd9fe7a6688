import type { Pool, PoolClient } from 'pg';

/** How often what lost against another transaction is done once more. */
const TRIES = 5;

/** A deadlock, a conflict of serialisation. */
const LOST = ['40P01', '40001'];

/**
 * Does something in one transaction. Where it lost against another one, nothing of it has happened and it is done again.
 *
 * @param end how it ends where nothing fails
 */
export async function inTransaction<T>(
  client: PoolClient,
  act: () => Promise<T>,
  end: 'COMMIT' | 'ROLLBACK' = 'COMMIT',
): Promise<T> {
  for (let tries = 1; ; tries++) {
    await client.query('BEGIN');
    try {
      const result = await act();
      await client.query(end);
      return result;
    } catch (error) {
      await client.query('ROLLBACK').catch(() => {});
      if (tries === TRIES || !LOST.includes((error as { code?: string }).code ?? '')) throw error;
    }
  }
}

/** Does something with a connection of its own; one that failed is not used again. */
export async function withClient<T>(pool: Pool, act: (client: PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect();
  let broken: Error | undefined;
  try {
    return await act(client);
  } catch (error) {
    broken = error as Error;
    throw error;
  } finally {
    client.release(broken);
  }
}

/** Does something in one transaction on a connection of its own. */
export function transacted<T>(pool: Pool, act: (client: PoolClient) => Promise<T>): Promise<T> {
  return withClient(pool, (client) => inTransaction(client, () => act(client)));
}
