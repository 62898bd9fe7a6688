import { Client } from 'pg';
import { databaseName } from './database-path';
import { databaseError } from './safekeeping/database-error';

/** What every session says, whatever the server's, the database's or the user's own settings are. */
export const SESSION_OPTIONS =
  '-c search_path=public -c timezone=UTC -c datestyle=ISO -c default_transaction_isolation=read\\ committed';

/** How long a server may take to let a verb in [ms]. */
const CONNECTING_MS = 30_000;

/**
 * Does something by one connection to a server, which then ends, and whatever transaction is open with it.
 *
 * @throws AppError 'database-unusable' with what the server refuses, in words
 */
export async function connectedTo<T>(databaseUrl: string, act: (client: Client) => Promise<T>): Promise<T> {
  const name = databaseName(databaseUrl);
  const client = new Client({
    connectionString: databaseUrl,
    application_name: 'cleanby',
    connectionTimeoutMillis: CONNECTING_MS,
    options: SESSION_OPTIONS,
  });
  // What becomes of a lost connection is told by the query that waits for it.
  client.on('error', () => {});
  try {
    await client.connect();
    return await act(client);
  } catch (error) {
    throw databaseError(error, name) ?? error;
  } finally {
    await client.end().catch(() => {});
  }
}
