// One import in a process of its own, so that its memory is its own: says in one line of JSON what it took. Run by import.ts.
import { createReadStream } from 'node:fs';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import Database from 'better-sqlite3';
import { parse } from 'csv-parse';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { readReadings } from '@/lib/ingest/read-readings';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import { unitIds } from '@/lib/store/entities/units';
import { closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { TAGS } from './import-file';
import { bareTable, PRAGMAS } from './import-peers';

export type Way = 'ours' | 'ours-read' | 'plain-loop' | 'bare-insert';

export type Took = {
  ms: number;
  /** User and system time of all threads [ms]. */
  cpuMs: number;
  peakMiB: number;
  /** Longest that the event loop was held up [ms]. */
  longestHoldMs: number;
  rows: number;
};

const BARE_INSERT = `INSERT INTO reading VALUES (${Array.from({ length: 10 }, () => '?').join(', ')})`;

const WAYS: Record<Way, (database: string, file: string) => Promise<() => Promise<number>>> = {
  /** The verb in a program that is running: the first question to Prisma, which takes half a second, has been asked. */
  ours: async (database, file) => {
    const context = await openContext(`file:${database}`);
    await unitIds(context.store.entities);
    return async () => {
      const report = await importReadings(context, { name: 'readings.csv', source: createReadStream(file) });
      await closeContext(context);
      return report.added + report.unchanged;
    };
  },
  /** Reading alone, nothing stored. */
  'ours-read': async (_, file) => async () => {
    let rows = 0;
    for await (const chunk of chunksOf(file)) rows += chunk.length;
    return rows;
  },
  /** What a program of twenty lines does. */
  'plain-loop': async (database, file) => {
    const open = openBare(database);
    const insert = open.prepare(BARE_INSERT);
    return async () => {
      open.exec('BEGIN');
      let rows = 0;
      const records = createReadStream(file).pipe(parse({ from_line: 2 }));
      for await (const [tag, time, ...values] of records as AsyncIterable<string[]>) {
        insert.run(tag, Date.parse(time!), ...values.map(Number));
        rows++;
      }
      open.exec('COMMIT');
      open.close();
      return rows;
    };
  },
  /** Columns that are parsed already through one prepared statement: no import from this language can be faster. */
  'bare-insert': async (database, file) => {
    const open = openBare(database);
    const insert = open.prepare(BARE_INSERT);
    const chunks: ReadingChunk[] = [];
    for await (const chunk of chunksOf(file)) chunks.push(chunk);
    return async () => {
      open.exec('BEGIN');
      let rows = 0;
      for (const chunk of chunks) {
        const columns = SENSORS.map((sensor) => chunk[sensor]);
        for (let i = 0; i < chunk.length; i++, rows++)
          insert.run(chunk.tag[i], chunk.time[i], ...columns.map((column) => column[i]));
      }
      open.exec('COMMIT');
      open.close();
      return rows;
    };
  },
};

function openBare(path: string): Database.Database {
  const database = new Database(path);
  database.exec(`${PRAGMAS}\n${bareTable('INTEGER')}`);
  return database;
}

function chunksOf(file: string) {
  const options = { knownTags: new Set(TAGS), mapping: null, timeZone: null };
  return readReadings(createReadStream(file), options);
}

const [way, database, file] = process.argv.slice(2) as [Way, string, string];
const run = await WAYS[way](database, file);
const delay = monitorEventLoopDelay({ resolution: 5 });
delay.enable();
const usedBefore = process.cpuUsage();
const began = performance.now();
const rows = await run();
const ms = performance.now() - began;
const { user, system } = process.cpuUsage(usedBefore);
delay.disable();
const took: Took = {
  ms,
  cpuMs: (user + system) / 1000,
  peakMiB: process.resourceUsage().maxRSS / 1024,
  longestHoldMs: delay.max / 1e6,
  rows,
};
console.log(JSON.stringify(took));
