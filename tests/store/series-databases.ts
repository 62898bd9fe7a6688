import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unitIds } from '@/lib/store/entities/units';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { registerFleet } from '@/lib/work/register-fleet';
import { POSTGRES_SERVER, postgresDatabase } from '../support/postgres-databases';
import { setup } from '../support/postgres-server';
import { plainFleet } from '../support/units';

export const DATABASES = ['SQLite', 'PostgreSQL'] as const;
export type DatabaseKind = (typeof DATABASES)[number];

export type OpenDatabase = {
  url: string;
  context: Context;
  ids: Map<string, number>;
  remove(): Promise<void>;
};

/** The run's PostgreSQL server, or one of this file where the run has none. @returns how to end it */
export async function needServer(): Promise<() => Promise<void>> {
  return process.env[POSTGRES_SERVER] === undefined ? setup() : async () => {};
}

/** A fresh database with a plain fleet. */
export async function openDatabase(kind: DatabaseKind, tags = ['E-1', 'E-2']): Promise<OpenDatabase> {
  const { url, remove } = kind === 'SQLite' ? sqliteDatabase() : await postgresDatabase();
  const context = await openContext(url);
  await registerFleet(context, plainFleet(tags));
  const ids = await unitIds(context.store.entities);
  return {
    url,
    context,
    ids,
    remove: async () => {
      await closeContext(context);
      await remove();
    },
  };
}

function sqliteDatabase(): { url: string; remove(): Promise<void> } {
  const folder = mkdtempSync(join(tmpdir(), 'cleanby-test-'));
  return {
    url: `file:${join(folder, 'cleanby.db')}`,
    remove: async () => rmSync(folder, { recursive: true, force: true }),
  };
}
