import type { Client } from 'pg';
import { appliedPostgres } from '@/prisma/migrate-postgres';
import { connectedTo } from '../connected-to';
import type { DatabaseState } from './probe-sqlite';

/** Whether a database on a server can be read and written now, and how many migrations it has had. Changes nothing. */
export async function probePostgres(
  databaseUrl: string,
): Promise<{ state: DatabaseState; migrations: number }> {
  try {
    return await connectedTo(databaseUrl, async (client) => ({
      state: await stateOf(client),
      migrations: (await appliedPostgres(client)).size,
    }));
  } catch {
    return { state: 'unreadable', migrations: 0 };
  }
}

/** The room on its disk is the server's to watch; a full one shows itself as what cannot be written. */
async function stateOf(client: Client): Promise<DatabaseState> {
  const { rows } = await client.query<{ read_only: boolean }>(
    `SELECT pg_is_in_recovery() OR current_setting('transaction_read_only')::boolean AS read_only`,
  );
  return rows[0]!.read_only ? 'read-only' : 'ok';
}
