import { spawnSync } from 'node:child_process';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { isOtherMethod } from '@/app/api/other-methods';
import { print } from '@/lib/cli/output';
import { conversionToSi } from '@/lib/contract/ucum';
import { readColumnName } from '@/lib/ingest/column-name';
import { readDecimal } from '@/lib/ingest/read-decimal';
import { readTime, readWallTime } from '@/lib/ingest/read-time';
import { listUnits } from '@/lib/store/entities/units';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, postJson, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet, plainUnit } from '../support/units';
import { asked, type WalkedRoute, walkRoutes } from './walk-router';

let database: TemporaryDatabase;
let routes: WalkedRoute[];
beforeAll(async () => {
  process.env.CLEANBY_LIMITS = 'address=1000000,token=1000000,expensive=1000000,imports=1000';
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['HX-1']));
  routes = (await walkRoutes(isOtherMethod)).filter(({ path }) => path.startsWith('/api/v1/'));
}, 120_000);
afterAll(async () => {
  delete process.env.CLEANBY_LIMITS;
  await database.remove();
});
afterEach(() => vi.restoreAllMocks());

async function send({ method, path, handler }: WalkedRoute, text: string, query = '') {
  const { address, params } = asked(path);
  const sent = request(address.slice('/api/v1/'.length) + query, {
    method,
    body: method === 'GET' || method === 'HEAD' ? null : text,
    headers: method === 'GET' ? {} : { 'content-type': 'application/json' },
  });
  return (await handler(sent, { params: Promise.resolve(params) })) as Response;
}

const POLLUTING = `{"__proto__":{"polluted":"yes"},"constructor":{"prototype":{"polluted":"yes"}},
  "unit":{"__proto__":{"polluted":"yes"}},"site":{"__proto__":{"polluted":"yes"}},"units":[{"__proto__":{"polluted":"yes"}}]}`;

describe('a document that reaches for the prototype of all objects', () => {
  it('changes none of them, by whatever route it comes', async () => {
    const failed: string[] = [];
    for (const route of routes) {
      const response = await send(route, POLLUTING, '?__proto__[polluted]=yes&__proto__=yes&constructor=yes');
      await response.body?.cancel();
      if (response.status >= 500) failed.push(`${route.key}: ${response.status}`);
      expect(({} as { polluted?: string }).polluted, route.key).toBeUndefined();
    }
    expect(failed).toEqual([]);
  });
});

describe('members that nobody asked for', () => {
  it.each([
    ['actor', {}, { actor: { kind: 'person' } }],
    ['createdBy', { createdBy: 'somebody else' }, {}],
    ['siteId', { siteId: 7 }, {}],
    ['version', { version: 99 }, {}],
  ])('are refused by their name, and nothing is written: %s', async (name, inUnit, beside) => {
    const { POST } = await import('@/app/api/v1/units/route');
    const { site } = plainFleet([]);
    const sent = postJson('units', { site, unit: { ...plainUnit('MASS-1'), ...inUnit }, ...beside });
    const { status, document } = await answerOf(POST(sent));
    expect(status).toBe(422);
    expect(JSON.stringify(document.errors)).toContain(name);
    const units = await listUnits(database.context.store.entities);
    expect(units.filter(({ tag }) => tag === 'MASS-1')).toEqual([]);
  });
});

describe('texts longer than anybody writes', () => {
  const LONG = 100_000;
  const MOST_MS = 1000;
  const runs = ['0', '9', '.', ',', '-', ' ', '(', '[', 'm', 'm.', '/m', '10*', '{', 'K2.', '\u2212', '1e'];
  const readers: [string, (text: string) => unknown][] = [
    ['a number', (text) => readDecimal(text, 46)],
    ['a number with a comma', (text) => readDecimal(text, 44)],
    ['a time', (text) => readTime(text, null)],
    ['a time of the plant', (text) => readWallTime(text)],
    ['a head of a column', (text) => readColumnName(text)],
    ['a unit of measure', (text) => conversionToSi(text, 'massFlow')],
  ];

  it.each(readers)('are read as %s in no time', (_, read) => {
    for (const run of runs) {
      const text = run.repeat(LONG / run.length);
      const began = performance.now();
      read(text);
      read(`${text}!`);
      // As long as a unit may be: what is behind is a library that nests and multiplies.
      for (let length = 1; length <= 60; length += 7) read(run.repeat(length).slice(0, 60));
      expect(performance.now() - began, run).toBeLessThan(MOST_MS);
    }
  });
});

it('a table on the screen of a terminal stays a table, whatever was entered', () => {
  const written: string[] = [];
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => written.push(`${text}`) > 0);
  const rows = [['E-1', 'pump\u001b[2J\u0007\r\nroot# rm']];
  print({}, { document: null, table: { columns: ['tag', 'service'], rows } });
  expect(written.join('')).toBe('tag  service\nE-1  pump [2J root# rm\n');
});

const LOGGED = `
  import { log, logRequest } from './lib/work/log.ts';
  const hostile = 'x\\r\\n{"level":60,"msg":"forged"}\\u001b[2J';
  logRequest({ method: 'POST' + hostile, url: '/units/a%0A' + hostile }, 500, { began: 0 });
  log.error({ err: new Error(hostile), tag: hostile }, hostile);
`;

it('a line of the log stays one line, whatever is in it', () => {
  const argv = ['--import', 'tsx', '--input-type=module', '-e', LOGGED];
  const { stderr } = spawnSync(process.execPath, argv, {
    encoding: 'utf8',
    env: { ...process.env, CLEANBY_LOG: 'info' },
  });
  const lines = stderr.trimEnd().split('\n');
  expect(lines).toHaveLength(2);
  expect(lines.map((line) => (JSON.parse(line) as { level: number }).level)).toEqual([50, 50]);
  expect(stderr).not.toContain('\r');
  expect(stderr).not.toContain('\u001b');
});
