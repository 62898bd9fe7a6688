import { execFileSync } from 'node:child_process';
import { createReadStream, createWriteStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Pool } from 'pg';
import { from } from 'pg-copy-streams';
import { LOCAL_ACTOR } from '@/lib/contract/actor';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingChunk, type ReadingChunk } from '@/lib/ingest/reading-chunk';
import { unitIds } from '@/lib/store/entities/units';
import { monthsOf } from '@/lib/store/series/postgres-partitions';
import type { SeriesStore } from '@/lib/store/series/series-store';
import { closeContext, openContext } from '@/lib/work/context';
import { registerFleet } from '@/lib/work/register-fleet';
import { startEmbeddedPostgres } from '@/prisma/embedded-server';
import { plainFleet } from '../support/units';
import { type BenchOptions, type BenchPiece, type BenchRow, hasProgram, median, timed } from './measure';

/** The shell of the database itself, where it is installed. */
const SHELL = 'sqlite3';
const ROWS = 500_000;
const TAGS = Array.from({ length: 10 }, (_, i) => `E-${101 + i}`);
const START = Date.UTC(2020, 0, 1);
const HOUR = 3_600_000;
const MEASURED = SENSORS.slice(0, 6);

/** `npm run bench taking` */
export const taking: BenchPiece = {
  name: 'taking',
  about: 'readings that are columns already into each database, against its own bare load of the same rows',
  async run(options) {
    const folder = await mkdtemp(join(tmpdir(), 'cleanby-bench-'));
    try {
      const rows = Math.max(1, Math.round((ROWS * options.scale) / TAGS.length)) * TAGS.length;
      const chunks = [...chunksOf(rows)];
      const file = join(folder, 'readings.csv');
      await pipeline(Readable.from(linesOf(chunks)), createWriteStream(file));
      const work = { options, folder, rows, chunks, file };
      return [...(await onSqlite(work)), ...(await onPostgres(work))];
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  },
};

type Work = { options: BenchOptions; folder: string; rows: number; chunks: ReadingChunk[]; file: string };

/** Hourly readings, unit after unit. */
function* chunksOf(rows: number): Generator<ReadingChunk> {
  const perUnit = rows / TAGS.length;
  for (let at = 0; at < rows; at += 8192) {
    const length = Math.min(8192, rows - at);
    const chunk = makeReadingChunk(TAGS, length);
    for (let i = 0; i < length; i++) {
      chunk.tag[i] = Math.floor((at + i) / perUnit);
      chunk.time[i] = START + ((at + i) % perUnit) * HOUR;
      for (const [s, sensor] of MEASURED.entries()) chunk[sensor][i] = valueAt(at + i, s);
    }
    yield Object.assign(chunk, { length, read: length });
  }
}

/** Figures of three decimals, as instruments give them. */
function valueAt(i: number, s: number): number {
  return Math.round((20 + 10 * s + 5 * Math.sin(i / 24) + ((i * 7919) % 1000) / 500) * 1000) / 1000;
}

/** The same rows as lines with the columns of the table of readings. */
function* linesOf(chunks: readonly ReadingChunk[]): Generator<string> {
  for (const chunk of chunks) {
    const lines: string[] = [];
    for (let i = 0; i < chunk.length; i++) {
      const values = SENSORS.map((sensor) => (Number.isNaN(chunk[sensor][i]!) ? '' : chunk[sensor][i]));
      lines.push(`${chunk.tag[i]! + 1},${chunk.time[i]},${values.join(',')},0,1\n`);
    }
    yield lines.join('');
  }
}

async function take(series: SeriesStore, ids: Map<string, number>, chunks: ReadingChunk[]) {
  const given = async function* () {
    yield* chunks;
  };
  const batch = { source: 'bench', at: START, actor: LOCAL_ACTOR, unitIds: ids, check: false };
  return series.importBatch({ ...batch, chunks: given() });
}

async function onSqlite({ options, folder, rows, chunks, file }: Work): Promise<BenchRow[]> {
  const peerName = hasProgram(SHELL) ? 'sqlite3 shell, .import of the same rows' : null;
  if (peerName === null) options.say('the sqlite3 shell is not here: SQLite stands without a peer');
  const times = { ours: [] as number[], again: [] as number[], undo: [] as number[], peer: [] as number[] };
  for (let run = 0; run < options.runs; run++) {
    const path = join(folder, `${run}.db`);
    const context = await openContext(`file:${path}`);
    await registerFleet(context, plainFleet(TAGS));
    await takenThrice(context.store.series, await unitIds(context.store.entities), { chunks, rows, times });
    await closeContext(context);
    if (peerName !== null)
      times.peer.push(await timed(() => shellLoad(join(folder, `peer-${run}.db`), file)));
  }
  return rowsOf('SQLite', rows, times, peerName);
}

/** One column names the unit by its number: this load has less to do than one of tags. */
function shellLoad(database: string, file: string): void {
  const columns = SENSORS.map((sensor) => `${sensor} REAL`).join(', ');
  execFileSync(SHELL, [
    database,
    'PRAGMA journal_mode = WAL',
    `CREATE TABLE reading (unit_id INTEGER, time BIGINT, ${columns}, flow_basis INTEGER, batch_id INTEGER,
       PRIMARY KEY (unit_id, time)) WITHOUT ROWID`,
    '.mode csv',
    `.import ${file} reading`,
  ]);
}

type Times = { ours: number[]; again: number[]; undo: number[]; peer: number[] };

async function takenThrice(
  series: SeriesStore,
  ids: Map<string, number>,
  { chunks, rows, times }: { chunks: ReadingChunk[]; rows: number; times: Times },
): Promise<void> {
  times.ours.push(
    await timed(async () => {
      const { added } = await take(series, ids, chunks);
      if (added !== rows) throw new Error(`${added} rows were added instead of ${rows}`);
    }),
  );
  let batch = 0;
  times.again.push(
    await timed(async () => {
      const counts = await take(series, ids, chunks);
      if (counts.unchanged !== rows) throw new Error(`${counts.unchanged} rows were unchanged`);
      batch = counts.batch! - 1;
    }),
  );
  times.undo.push(await timed(() => series.undoBatch(batch, { actor: LOCAL_ACTOR, at: START })));
}

async function onPostgres({ options, rows, chunks, file }: Work): Promise<BenchRow[]> {
  const server = await startEmbeddedPostgres({ settings: ['max_wal_size=4GB'] });
  const context = await openContext(server.url);
  const pool = new Pool({ connectionString: server.url });
  try {
    await registerFleet(context, plainFleet(TAGS));
    const ids = await unitIds(context.store.entities);
    const times = { ours: [] as number[], again: [] as number[], undo: [] as number[], peer: [] as number[] };
    options.say(`${monthsOf(chunks.flatMap((chunk) => [...chunk.time])).size} months`);
    for (let run = 0; run < options.runs; run++) {
      await takenThrice(context.store.series, ids, { chunks, rows, times });
      await pool.query('TRUNCATE reading, reading_before');
      times.peer.push(await timed(() => copyFile(pool, file)));
      const readings = await readingRows(context.store.series, pool, options);
      await pool.query('TRUNCATE reading, reading_before');
      if (run === options.runs - 1)
        return [
          ...rowsOf('PostgreSQL', rows, times, 'COPY of the same rows from a CSV file, as \\copy of psql'),
          readings,
        ];
    }
    return [];
  } finally {
    await pool.end();
    await closeContext(context);
    await server.stop();
  }
}

/** The bare load of a file: through the connection, as the server may not read our files. */
async function copyFile(pool: Pool, file: string): Promise<void> {
  const client = await pool.connect();
  await pipeline(createReadStream(file), client.query(from('COPY reading FROM STDIN (FORMAT csv)')));
  client.release();
}

/** A unit's whole record as columns, against the rows of the driver. */
async function readingRows(series: SeriesStore, pool: Pool, { runs }: BenchOptions): Promise<BenchRow> {
  const times = { ours: [] as number[], peer: [] as number[] };
  const text = 'SELECT * FROM reading WHERE unit_id = $1 ORDER BY time';
  let length = 0;
  for (let run = 0; run <= runs; run++) {
    const ours = await timed(async () => {
      length = (await series.readReadings(1, 0, Number.MAX_SAFE_INTEGER)).time.length;
    });
    const peer = await timed(() => pool.query({ text, values: [1], rowMode: 'array' }));
    // The first of each warms up.
    if (run === 0) continue;
    times.ours.push(ours);
    times.peer.push(peer);
  }
  const [ours, peer] = [median(times.ours), median(times.peer)];
  return {
    what: `PostgreSQL: ${length.toLocaleString('en-GB')} readings of a unit as columns`,
    ours,
    peer,
    peerName: 'rows of the driver, not yet columns',
    unit: 'ms',
    ratio: ours / peer,
    limit: null,
    memory: null,
  };
}

function rowsOf(database: string, rows: number, times: Times, peerName: string | null): BenchRow[] {
  const own = median(times.ours);
  const line = (what: string, ours: number, peer: number | null, name: string | null): BenchRow => ({
    what: `${database}: ${what}`,
    ours,
    peer,
    peerName: name,
    unit: 'ms',
    ratio: peer === null ? null : ours / peer,
    limit: null,
    memory: null,
  });
  const words = `${rows.toLocaleString('en-GB')} rows, 8 sensors`;
  return [
    line(`taking ${words}`, own, peerName === null ? null : median(times.peer), peerName),
    line(`the same again, all unchanged`, median(times.again), own, 'taking them first'),
    line(`undoing the import`, median(times.undo), own, 'taking them first'),
  ];
}
