import { Client, Pool } from 'pg';
import { SESSION_OPTIONS } from './connected-to';
import { NoConnectionError } from './safekeeping/postgres-causes';
import { LONGEST_WAIT_MS } from './write-turn';

/** Connections of one process at most: of a server's usual hundred, several web servers and workers take their part. */
const MOST_CONNECTIONS = 10;

/** How long a connection may take to come about, or to become free [ms]. */
const CONNECTING_MS = 30_000;

type Connected = (error: Error | null) => void;

/** A connection that says of a server out of reach that it was the database's: other services have addresses too. */
class DatabaseClient extends Client {
  override connect(): Promise<Client>;
  override connect(callback: Connected): void;
  override connect(callback?: Connected): Promise<Client> | undefined {
    if (callback === undefined) return super.connect() as unknown as Promise<Client>;
    super.connect((error: Error | null) =>
      callback(isOfNetwork(error) ? new NoConnectionError(reasonOf(error), { cause: error }) : error),
    );
  }
}

function isOfNetwork(error: Error | null): error is Error {
  return error !== null && /^E[A-Z]/.test(String((error as { code?: unknown }).code));
}

/** A name with several addresses fails with an error for each, and with no words of its own. */
function reasonOf(error: Error): string {
  return error instanceof AggregateError
    ? error.errors.map(({ message }) => message).join(', ')
    : error.message;
}

/** Connections to the database of an address, made as they are needed. */
export function openPool(databaseUrl: string): Pool {
  const pool = new Pool({
    connectionString: databaseUrl,
    application_name: 'cleanby',
    max: MOST_CONNECTIONS,
    connectionTimeoutMillis: CONNECTING_MS,
    keepAlive: true,
    Client: DatabaseClient,
    statement_timeout: LONGEST_WAIT_MS,
    idle_in_transaction_session_timeout: LONGEST_WAIT_MS,
    options: SESSION_OPTIONS,
  });
  // A server that ends idle connections must not end the process: the pool makes others, and whoever asks next is told.
  pool.on('error', () => {});
  return pool;
}
