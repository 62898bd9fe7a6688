import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Context, closeContext, openContext } from '@/lib/work/context';

export type TemporaryDatabase = { url: string; folder: string; context: Context; remove(): Promise<void> };

/** A fresh migrated SQLite database in a folder of its own, for one test file. */
export async function temporaryDatabase(): Promise<TemporaryDatabase> {
  const folder = mkdtempSync(join(tmpdir(), 'cleanby-test-'));
  const url = `file:${join(folder, 'cleanby.db')}`;
  const context = await openContext(url);
  return {
    url,
    folder,
    context,
    remove: async () => {
      await closeContext(context);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
