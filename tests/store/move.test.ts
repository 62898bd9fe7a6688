import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { Client } from 'pg';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { move } from '@/lib/work/move';
import { type EmbeddedServer, startEmbeddedPostgres } from '@/prisma/embedded-server';
import { dataTables, migrateSqlite } from '@/prisma/migrate';
import { contentOf, fillTables } from '../safekeeping/fill-tables';

let server: EmbeddedServer;
let to: string;
let folder: string;
let path: string;

beforeAll(async () => {
  server = await startEmbeddedPostgres({ settings: ['fsync=off'] });
});
afterAll(() => server.stop());
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-move-'));
  path = join(folder, 'plant.db');
  await inServer('DROP DATABASE IF EXISTS plant WITH (FORCE)', 'CREATE DATABASE plant');
  to = server.url.replace(/\/postgres$/, '/plant');
});
afterEach(() => rmSync(folder, { recursive: true }));

async function inServer(...statements: string[]): Promise<void> {
  await at(server.url, async (client) => {
    for (const statement of statements) await client.query(statement);
  });
}

async function at<T>(url: string, act: (client: Client) => Promise<T>): Promise<T> {
  const client = new Client(url);
  await client.connect();
  try {
    return await act(client);
  } finally {
    await client.end();
  }
}

const values = (sql: string) =>
  at(to, async (client) => (await client.query({ text: sql, rowMode: 'array' })).rows.flat());

const counts = (tables: { table: string }[]) =>
  values(`SELECT ${tables.map(({ table }) => `(SELECT count(*)::int FROM "${table}")`).join(', ')}`);

function inFile<T>(act: (database: Database.Database) => T, file = path): T {
  const database = new Database(file);
  try {
    return act(database);
  } finally {
    database.close();
  }
}

const content = (file: string) => inFile((database) => contentOf(database), file);

/** Figures whose digits or signs are easily lost on the way. */
const FIGURES = [
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  Number.MIN_VALUE,
  -Number.MAX_VALUE,
  2 ** 53 + 2,
  0.1 + 0.2,
  1e23,
  -1 / 3,
];

/** A row in every table, and what is hardest to carry. */
function fillPlant(): void {
  migrateSqlite(`file:${path}`);
  inFile((database) => {
    fillTables(database);
    const reading = database.prepare(
      `INSERT INTO reading (unit_id, time, hot_in, hot_out, cold_in, flow_basis, batch_id) VALUES (1, ?, ?, ?, NULL, 3, 1)`,
    );
    for (const [i, figure] of FIGURES.entries()) reading.run(Date.UTC(2016, i * 5, 1) - 1, figure, -figure);
    database.prepare('UPDATE import_batch_unit SET last_time = ? WHERE batch_id = 1').run(2n ** 63n - 1n);
    const setting = database.prepare('INSERT INTO setting (key, value) VALUES (?, ?)');
    for (const text of ['', '\\', '\\N', '\\.', 'a\tb\r\nc', 'ß“\u2028🜂', 'B', 'a', 'é', "'; --"])
      setting.run(text, text);
    database.prepare('UPDATE cleaning_file SET content = ? WHERE id = 1').run(Buffer.alloc(3_000_000, 7));
    database.prepare('UPDATE cleaning_file SET content = ? WHERE id = 2').run(Buffer.alloc(0));
    // Numbers of rows that are gone must not come back.
    database.prepare("UPDATE sqlite_sequence SET seq = 4711 WHERE name = 'site'").run();
  });
}

describe('moving a database', () => {
  it('carries every value of every table to the last bit, there and back', async () => {
    fillPlant();
    const moved = await move({ from: `file:${path}`, to });
    const tables = inFile((database) => dataTables(database));
    expect(moved.tables.map(({ table }) => table).toSorted()).toEqual(tables);
    expect(moved).toMatchObject({
      from: path,
      to: expect.not.stringContaining('password'),
      replacedTexts: 0,
    });
    expect(await counts(moved.tables)).toEqual(moved.tables.map(({ rows }) => rows));
    expect(
      await values(
        "SELECT float8send(hot_in)::text FROM reading WHERE hot_in < 'Infinity' AND time < 1600000000000 ORDER BY time",
      ),
    ).toEqual(FIGURES.filter((figure) => figure !== Number.POSITIVE_INFINITY).map(bits));

    const back = join(folder, 'back.db');
    const returned = await move({ from: to, to: `file:${back}` });
    expect(returned.tables).toEqual(moved.tables);
    expect(content(back)).toEqual(content(path));
    expect(inFile(numbers, back)).toEqual(inFile(numbers));
  });

  it('goes on counting where the old database would have', async () => {
    fillPlant();
    await move({ from: `file:${path}`, to });
    expect(
      await values("INSERT INTO site (name, time_zone, currency) VALUES ('new', 'UTC', 'EUR') RETURNING id"),
    ).toEqual([4712]);
  });

  it('lays readings into parts of a calendar month', async () => {
    fillPlant();
    await move({ from: `file:${path}`, to });
    expect(
      await values(
        "SELECT DISTINCT to_char(to_timestamp(time / 1000), 'YYYY_MM') = right(tableoid::regclass::text, 7) FROM reading",
      ),
    ).toEqual([true]);
  });

  it('says that a NUL was replaced, which PostgreSQL cannot hold', async () => {
    migrateSqlite(`file:${path}`);
    inFile((database) => database.prepare("INSERT INTO setting VALUES ('a' || char(0) || 'b', 'c')").run());
    expect((await move({ from: `file:${path}`, to })).replacedTexts).toBeGreaterThan(0);
    expect(await values('SELECT key FROM setting')).toEqual(['a\uFFFDb']);
  });
});

describe('a move that cannot be', () => {
  const refused = async (request: { from: string; to: string }, message: RegExp) =>
    expect(move(request)).rejects.toMatchObject({ message: expect.stringMatching(message) });

  it('leaves a target alone that holds a single row', async () => {
    fillPlant();
    await move({ from: `file:${path}`, to });
    await refused({ from: `file:${path}`, to }, /holds data already \(in \w+\) and is not overwritten/);
    await refused({ from: to, to: `file:${path}` }, /holds data already/);
  });

  it('leaves the target empty and the source as it was where a row cannot be taken', async () => {
    fillPlant();
    // SQLite takes it: no such site.
    inFile((database) => {
      database.pragma('foreign_keys = OFF');
      database.prepare("INSERT INTO unit (tag, site_id) VALUES ('E-9', 99)").run();
    });
    const before = content(path);
    await refused({ from: `file:${path}`, to }, /unit_site_id_fkey/);
    expect(content(path)).toEqual(before);
    for (const table of Object.keys(before))
      expect(await values(`SELECT 1 FROM "${table}"`), table).toEqual([]);
    inFile((database) => database.prepare("DELETE FROM unit WHERE tag = 'E-9'").run());
    await move({ from: `file:${path}`, to });
  });

  it('names what does not belong in a column', async () => {
    fillPlant();
    inFile((database) => database.prepare("UPDATE cleaning SET at = 'noon' WHERE id = 1").run());
    await refused({ from: `file:${path}`, to }, /cleaning\.at holds noon/);
  });

  it('notices a value that the other database cannot hold', async () => {
    fillPlant();
    await move({ from: `file:${path}`, to });
    await values("UPDATE site SET crew_hours_per_week = 'NaN' WHERE id = 2");
    const back = join(folder, 'back.db');
    await refused({ from: to, to: `file:${back}` }, /a row of site did not arrive as it was \(2\t/);
    expect(existsSync(back)).toBe(false);
  });

  it('asks for another way between two files, and for a database that is there', async () => {
    await refused({ from: `file:${path}`, to: `file:${path}2` }, /Both are SQLite files/);
    await refused({ from: `file:${path}`, to }, /There is no database/);
    await refused({ from: to, to: `file:${path}` }, /no database of Cleanby/);
  });
});

/** A figure as the bytes of its bits in hexadecimal. */
function bits(figure: number): string {
  const bytes = Buffer.alloc(8);
  bytes.writeDoubleBE(figure);
  return `\\x${bytes.toString('hex')}`;
}

function numbers(database: Database.Database): unknown {
  return database
    .prepare("SELECT name, seq FROM sqlite_sequence WHERE name <> 'unit_result' ORDER BY name")
    .all();
}
