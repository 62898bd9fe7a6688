import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { listBatches } from '@/lib/store/entities/batches';
import { exampleClient } from '@/lib/work/example-client';
import { registerFleet } from '@/lib/work/register-fleet';
import { makeToken } from '@/lib/work/tokens';
import { apiDatabase, readingsCsv } from '../support/api';
import { type ApiServer, serveApi } from '../support/api-server';
import { answerOfRoutes } from '../support/route-files';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const CLIENT = fileURLToPath(new URL('../../seed/example-client.mjs', import.meta.url));

let database: TemporaryDatabase;
let server: ApiServer;
let refusals: Response[];
beforeEach(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E-1']));
  refusals = [];
  server = await serveApi(async (request) => refusals.shift() ?? answerOfRoutes(request));
});
afterEach(async () => {
  await server.close();
  await database.remove();
});

async function run(scopes: string[], content: string) {
  const { secret } = await makeToken(database.context, { name: 'bridge', scopes, days: 1 });
  const file = join(database.folder, 'north site.csv');
  writeFileSync(file, content);
  const env = { ...process.env, CLEANBY_ADDRESS: server.address, CLEANBY_TOKEN: secret };
  const child = spawn(process.execPath, [CLIENT, file], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  const said = { out: '', error: '' };
  child.stdout.on('data', (data) => (said.out += data));
  child.stderr.on('data', (data) => (said.error += data));
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve));
  return { code, ...said };
}

const busy = (status: number) =>
  new Response('{"errors":[]}', {
    status,
    headers: { 'Retry-After': '0', 'Content-Type': 'application/problem+json' },
  });

describe('the example client', () => {
  it('is short, and needs nothing that Node does not have', async () => {
    const text = await exampleClient();
    expect(text.trim().split('\n').length).toBeLessThanOrEqual(40);
    const imported = [...text.matchAll(/from '([^']+)'/g)].map(([, name]) => name);
    expect(imported.filter((name) => !name!.startsWith('node:'))).toEqual([]);
  });

  it('sends a file over a real connection and prints the report', async () => {
    const content = `${readingsCsv('E-1', 3000)}E-9,2026-01-01T00:00:00Z,50,40,30,40,10,10\n`;
    const { code, out, error } = await run(['import'], content);
    expect([code, error]).toEqual([0, '']);
    expect(out).toContain('3001 rows, 3000 added, 0 replaced, 0 unchanged');
    expect(out).toContain('1 kept aside');
    const [batch] = await listBatches(database.context.store.entities, 1);
    expect(batch).toMatchObject({ source: 'north site.csv', added: 3000, importedBy: 'bridge' });
  });

  it('waits as long as it is told to and sends again, and nothing is in twice', async () => {
    refusals.push(busy(429), busy(503));
    const { code, out } = await run(['import'], readingsCsv('E-1', 24));
    expect([code, refusals.length]).toEqual([0, 0]);
    expect(out).toContain('24 added');
    expect(await listBatches(database.context.store.entities, 9)).toHaveLength(1);
  });

  it('gives up on what will not be otherwise, with the reason', async () => {
    const { code, error } = await run(['look'], readingsCsv('E-1', 1));
    expect(code).toBe(1);
    expect(error).toContain('bridge may not do this');
    expect(error).toContain('Authorization: it needs the right "import"');
  });
});
