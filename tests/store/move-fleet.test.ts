import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { move } from '@/lib/work/move';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { verifyAny } from '@/lib/work/safekeeping';
import { type EmbeddedServer, startEmbeddedPostgres } from '@/prisma/embedded-server';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { bytesOf, readingsCsv } from '../support/readings-csv';
import { runCleanby } from '../support/run-cleanby';

const DAY = 86_400_000;
const END = Date.parse('2026-06-01T00:00:00Z');
const DAYS = 100;
const UNITS = 2;

let server: EmbeddedServer;
let folder: string;
const at = (name: string) => server.url.replace(/\/postgres$/, `/${name}`);
const file = (name: string) => `file:${join(folder, name)}`;

beforeAll(async () => {
  // Both fleets are made at the same instant, or what was written down would differ by when.
  process.env.CLEANBY_NOW = '2026-06-01T12:00:00Z';
  folder = mkdtempSync(join(tmpdir(), 'cleanby-move-fleet-'));
  server = await startEmbeddedPostgres({ settings: ['fsync=off'] });
  const client = new Client(server.url);
  await client.connect();
  for (const name of ['grown', 'moved', 'by_command'])
    await client.query(
      `CREATE DATABASE ${name} TEMPLATE template0 ENCODING 'UTF8' LOCALE_PROVIDER icu ICU_LOCALE 'en'`,
    );
  await client.end();
  await growFleet(file('fleet.db'));
  await growFleet(at('grown'));
});
afterAll(async () => {
  delete process.env.CLEANBY_NOW;
  await server.stop();
  rmSync(folder, { recursive: true });
});

/** A fleet with known truth, registered, read in and analysed; then a correction of readings, and analysed again. */
async function growFleet(url: string): Promise<void> {
  const context = await openContext(url);
  const { fleet, plans } = makeHeldOutFleet(3, UNITS);
  await registerFleet(context, JSON.parse(JSON.stringify(fleet)));
  for (const [seed, plan] of plans.entries()) {
    const span = { start: END - DAYS * DAY, end: END, stepMs: 3_600_000, seed };
    const { readings, truth } = generateReadings(plan, span);
    const { tag } = plan.unit;
    const text = readingsCsv(plan.unit, readings);
    await importReadings(context, { name: `${tag}.csv`, source: bytesOf(text) });
    for (const { at: cleanedAt, isRecorded } of truth.cleanings) {
      if (isRecorded) await recordCleaning(context, { tag, at: cleanedAt });
    }
    if (seed > 0) continue;
    await analyse(context);
    const again = `${text.split('\n').slice(0, 200).join('\n').replaceAll('.5', '.6')}\nnonsense\n`;
    await importReadings(context, { name: 'again.csv', source: bytesOf(again) });
  }
  await analyse(context);
  await closeContext(context);
}

/** What must be the same to the last digit, whatever database a fleet grew up on; marks and sessions are drawn by chance. */
const SAME = [
  'unit_version',
  'reading',
  'reading_before',
  'import_batch',
  'import_batch_unit',
  'row_set_aside',
  'cleaning',
  'clean_reference',
  'daily_block',
  'unit_result',
  'unit_statement',
  'change_record',
];

describe('a fleet with known truth', () => {
  it('has the same rows to the last digit whether it grew up on SQLite or on PostgreSQL', async () => {
    const onSqlite = await move({ from: file('fleet.db'), to: at('moved') });
    const onPostgres = await move({ from: at('grown'), to: file('grown.db') });
    const only = ({ tables }: typeof onSqlite) =>
      Object.fromEntries(tables.filter(({ table }) => SAME.includes(table)).map((own) => [own.table, own]));
    expect(only(onPostgres)).toEqual(only(onSqlite));
    expect(only(onSqlite).reading!.rows).toBeGreaterThan(UNITS * DAYS * 20);
    expect(only(onSqlite).reading_before!.rows).toBeGreaterThan(0);
    expect(only(onSqlite).unit_result!.rows).toBe(UNITS);
  });

  it('is sound where it was moved to, with nothing left to analyse', async () => {
    expect((await verifyAny(at('moved'))).problems).toBe(0);
    const context = await openContext(at('moved'));
    expect((await analyse(context)).analysed).toEqual([]);
    await closeContext(context);
  });

  it('is moved by one command, which prints the rows and digests of every table', async () => {
    const run = await runCleanby(
      ['move', '--from', file('fleet.db'), '--to', at('by_command')],
      file('none.db'),
    );
    expect(run).toMatchObject({ code: 0, stderr: expect.stringMatching(/found the same to the last bit/) });
    expect(run.stdout).toMatch(/^table +rows +SHA-256 of its rows\n/);
    expect(run.stdout).toMatch(/\nreading +\d+ +[0-9a-f]{16}\n/);
    expect(run.stdout + run.stderr).not.toContain('password');
    const again = await runCleanby(['move', '--from', file('fleet.db'), '--to', at('by_command')], '');
    expect(again).toMatchObject({ code: 1, stdout: '', stderr: expect.stringMatching(/holds data already/) });
  });
});
