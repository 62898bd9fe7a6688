import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { readingsCsv } from '../support/api';
import { plainFleet } from '../support/units';

/** A folder with the database of a small plant in it: units with hourly readings, imported as one batch each. */
export type Plant = { folder: string; path: string; url: string; remove: () => void };

const TAGS = ['E-1', 'E-2', 'E-3'];

export async function makePlant({ hours = 480, analysed = true } = {}): Promise<Plant> {
  const folder = mkdtempSync(join(tmpdir(), 'cleanby-plant-'));
  const path = join(folder, 'plant.db');
  const context = await openContext(`file:${path}`);
  await registerFleet(context, plainFleet(TAGS));
  for (const tag of TAGS) {
    await importReadings(context, { name: `${tag}.csv`, source: bytesOf(readingsCsv(tag, hours)) });
  }
  if (analysed) await analyse(context);
  await closeContext(context);
  return {
    folder,
    path,
    url: `file:${path}`,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

export async function* bytesOf(text: string): AsyncGenerator<Uint8Array> {
  yield Buffer.from(text);
}

/** Works on a database file directly. */
export function inDatabase<T>(path: string, work: (database: Database.Database) => T): T {
  const database = new Database(path);
  try {
    return work(database);
  } finally {
    database.close();
  }
}
