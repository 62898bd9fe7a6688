import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { uploadFolder } from '@/lib/work/uploads/upload-folder';
import { postgresDatabase } from './postgres-databases';

export type TemporaryDatabase = { url: string; folder: string; context: Context; remove(): Promise<void> };

/** Whether this run of the tests is on PostgreSQL; otherwise it is on SQLite. */
export const ON_POSTGRES = process.env.CLEANBY_TEST_DATABASE === 'postgres';

/** A fresh migrated database, and a folder for one test file: on SQLite, or on PostgreSQL where the run says so. */
export async function temporaryDatabase(): Promise<TemporaryDatabase> {
  const folder = mkdtempSync(join(tmpdir(), 'cleanby-test-'));
  const server = ON_POSTGRES ? await postgresDatabase() : null;
  const url = server?.url ?? `file:${join(folder, 'cleanby.db')}`;
  const context = await openContext(url);
  return {
    url,
    folder,
    context,
    remove: async () => {
      await closeContext(context);
      rmSync(uploadFolder(url), { recursive: true, force: true });
      await server?.remove();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
