import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { databasePath, isPostgres } from '@/lib/store/database-path';
import { probePostgres } from '@/lib/store/safekeeping/probe-postgres';
import { type DatabaseState, probeSqlite } from '@/lib/store/safekeeping/probe-sqlite';
import { addressed } from './back-up';
import { openContext } from './context';
import { log } from './log';

/** What a monitor is told: nothing of the plant. */
export type ServerHealth = {
  status: 'ok' | 'failing';
  version: string;
  database: DatabaseState;
  /** How many migrations the database has had. */
  migrations: number;
  /** [s] since the server started. */
  uptime: number;
};

/** Whether the server can work: its database is open, can be read and written, and has room. */
export async function serverHealth(databaseUrl = addressed()): Promise<ServerHealth> {
  const { state, migrations } = await stateOf(databaseUrl);
  return {
    status: state === 'ok' ? 'ok' : 'failing',
    version: version(),
    database: state,
    migrations,
    uptime: Math.round(process.uptime()),
  };
}

async function stateOf(databaseUrl: string): Promise<ReturnType<typeof probeSqlite>> {
  try {
    await openContext(databaseUrl);
  } catch (error) {
    log.error({ err: error }, 'the database cannot be opened');
    return { state: 'unreadable', migrations: 0 };
  }
  return isPostgres(databaseUrl) ? probePostgres(databaseUrl) : probeSqlite(databasePath(databaseUrl));
}

let knownVersion: string | null = null;

/** The bundled server runs elsewhere than this file stands, so the version is read from the project's root. */
function version(): string {
  knownVersion ??= (
    JSON.parse(readFileSync(join(process.env.CLEANBY_ROOT ?? process.cwd(), 'package.json'), 'utf8')) as {
      version: string;
    }
  ).version;
  return knownVersion;
}
