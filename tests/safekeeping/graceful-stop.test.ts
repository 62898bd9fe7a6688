import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { type ClientRequest, request } from 'node:http';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { verifyDatabase } from '@/lib/work/verify-database';
import { readingsCsv } from '../support/api';
import { inDatabase, makePlant, type Plant } from './plant';

const SCRIPT = fileURLToPath(new URL('serve-process.ts', import.meta.url));
const ROWS = 500;

let plant: Plant;
let server: ChildProcess;
let lines: AsyncIterator<string>;
let log: string;

beforeEach(async () => {
  plant = await makePlant({ hours: 24, analysed: false });
});
afterEach(() => {
  server.kill('SIGKILL');
  plant.remove();
});

/** Starts the server; it gives requests under way so long to end [ms]. */
async function start(within: number): Promise<number> {
  server = spawn(process.execPath, ['--import', 'tsx', SCRIPT, String(within)], {
    env: { ...process.env, DATABASE_URL: plant.url },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  log = '';
  server.stderr!.on('data', (data) => (log += data));
  lines = createInterface({ input: server.stdout! })[Symbol.asyncIterator]();
  return Number((await nextLine()).replace('port ', ''));
}

async function nextLine(): Promise<string> {
  const { value, done } = await lines.next();
  if (done) throw new Error(`the server ended: ${log}`);
  return value as string;
}

/** Begins to send readings and stops in the middle of them, when the server is at work on them. */
async function halfSent(
  port: number,
): Promise<{ sending: ClientRequest; rest: string; answer: Promise<string> }> {
  const text = readingsCsv('E-1', ROWS, '2020-01-01T00:00:00Z');
  const sending = request({ port, host: '127.0.0.1', method: 'POST' });
  const answer = new Promise<string>((resolve, reject) => {
    sending.once('error', reject);
    sending.once('response', async (response) => {
      let body = '';
      for await (const piece of response) body += piece;
      resolve(body);
    });
  });
  answer.catch(() => {});
  sending.write(text.slice(0, 9000));
  expect(await nextLine()).toBe('request');
  return { sending, rest: text.slice(9000), answer };
}

async function exitOf(child: ChildProcess): Promise<number | null> {
  const [code] = child.exitCode === null ? await once(child, 'exit') : [child.exitCode];
  return code as number | null;
}

const batches = () =>
  inDatabase(plant.path, (it) => it.prepare<[], number>('SELECT count(*) FROM import_batch').pluck().get());

describe('a server asked to stop', () => {
  it('ends an import under way, takes no other, closes its database and ends with 0', async () => {
    const port = await start(60_000);
    const { sending, rest, answer } = await halfSent(port);
    server.kill('SIGTERM');
    await told('stopping');
    const refused = request({ port, host: '127.0.0.1' }).end();
    const [error] = (await once(refused, 'error')) as [NodeJS.ErrnoException];
    // Refused, or taken off the line it was already waiting in.
    expect(error.code).toMatch(/^(ECONNREFUSED|ECONNRESET)$/);
    sending.end(rest);
    expect(JSON.parse(await answer)).toMatchObject({ added: ROWS });
    expect(await exitOf(server)).toBe(0);
    expect(log).toMatch(/"cutOff":false,"msg":"stopped"/);
    expect(existsSync(`${plant.path}-wal`)).toBe(false);
    expect(batches()).toBe(4);
  });

  it('rolls back what does not end in time, and ends with 0 all the same', async () => {
    const port = await start(200);
    const { answer } = await halfSent(port);
    server.kill('SIGINT');
    await expect(answer).rejects.toThrow();
    expect(await exitOf(server)).toBe(0);
    expect(log).toMatch(/"cutOff":true,"msg":"stopped"/);
    expect(batches()).toBe(3);
    expect(verifyDatabase(plant.url).problems).toBe(0);
  });

  it('ends at once at the second signal, and has lost nothing', async () => {
    const port = await start(60_000);
    await halfSent(port);
    server.kill('SIGTERM');
    await told('stopping');
    server.kill('SIGTERM');
    expect(await exitOf(server)).toBe(1);
    expect(batches()).toBe(3);
    expect(verifyDatabase(plant.url).problems).toBe(0);
  });
});

async function told(word: string): Promise<void> {
  while (!log.includes(word)) await once(server.stderr!, 'data');
}
