import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { TOKEN_SCOPES } from '@/lib/auth/rights';
import { openSession } from '@/lib/auth/sessions';
import { makeTokenSecret } from '@/lib/auth/token-secret';
import { addToken } from '@/lib/store/entities/api-tokens';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { addAccount } from '@/lib/work/people/add-account';

const ROOT = fileURLToPath(new URL('../..', import.meta.url)).replace(/\/$/, '');

/** The built application over a database, in processes of its own, and what opens its pages and routes. */
export type ServedPlant = {
  address: string;
  /** Headers of a person who is signed in, and of a program with a token. */
  person: Record<string, string>;
  program: Record<string, string>;
  /** Resident memory of the server and what it started [MiB]; null where the system does not tell. */
  memory(): number | null;
  stop(): Promise<void>;
};

/** Serves a database that is filled already. Limits of requests are lifted: a bench asks more than people do. */
export async function servePlant(
  databaseUrl: string,
  env: Record<string, string> = {},
): Promise<ServedPlant> {
  const port = await freePort();
  const address = `http://127.0.0.1:${port}`;
  const keys = await keysOf(databaseUrl, port);
  const server = spawn(process.execPath, ['lib/cli/cleanby.mjs', 'serve', '--port', String(port)], {
    cwd: ROOT,
    stdio: ['ignore', 'ignore', 'inherit'],
    env: {
      ...process.env,
      DATABASE_URL: databaseUrl,
      CLEANBY_ROOT: ROOT,
      CLEANBY_LOG: 'error',
      CLEANBY_LIMITS: 'address=1000000,token=1000000,expensive=1000000,imports=16',
      ...env,
    },
  });
  await untilItAnswers(`${address}/api/health`, server);
  return {
    address,
    ...keys,
    memory: () => memoryOf(server.pid!),
    stop: async () => {
      server.kill('SIGTERM');
      if (server.exitCode === null) await once(server, 'exit');
    },
  };
}

/** An account with a session and a token, made past the pages. */
async function keysOf(databaseUrl: string, port: number): Promise<Pick<ServedPlant, 'person' | 'program'>> {
  const context = await openContext(databaseUrl);
  try {
    const { secret, ...kept } = makeTokenSecret();
    const made = {
      name: `bench ${Date.now()}`,
      scopes: TOKEN_SCOPES,
      createdBy: 'bench',
      createdAt: 0,
      expiresAt: null,
    };
    await addToken(context.store.entities, { ...kept, ...made });
    return { person: await signedIn(context, port), program: { authorization: `Bearer ${secret}` } };
  } finally {
    await closeContext(context);
  }
}

async function signedIn(context: Context, port: number): Promise<Record<string, string>> {
  const name = `Bench ${Date.now()}`;
  const email = `bench-${Date.now()}@plant.example`;
  const { id } = await addAccount(context, { name, email, role: 'administrator', passwordHash: null });
  const headers = new Headers({ host: `127.0.0.1:${port}`, 'user-agent': 'Bench' });
  const cookies = await openSession(context.store, id, headers);
  return { cookie: cookies.map((line) => line.split(';')[0]!).join('; ') };
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const { port } = probe.address() as { port: number };
  probe.close();
  await once(probe, 'close');
  return port;
}

const PATIENCE_MS = 300_000;

async function untilItAnswers(url: string, server: ChildProcess): Promise<void> {
  const until = Date.now() + PATIENCE_MS;
  for (;;) {
    if (server.exitCode !== null) throw new Error(`the server ended with code ${server.exitCode}`);
    const answer = await fetch(url).catch(() => null);
    if (answer !== null) return;
    if (Date.now() > until) throw new Error('the server does not answer');
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}

/** Resident memory of a process and everything it started, as Linux tells it. */
function memoryOf(pid: number): number | null {
  try {
    const parents = new Map(
      readdirSync('/proc')
        .filter((name) => /^\d+$/.test(name))
        .flatMap((name) => {
          const status = readStatus(name);
          return status === null ? [] : [[Number(name), status] as const];
        }),
    );
    const isOurs = (own: number): boolean =>
      own === pid || (parents.has(own) && isOurs(parents.get(own)!.parent));
    return [...parents].reduce((sum, [own, { resident }]) => (isOurs(own) ? sum + resident : sum), 0);
  } catch {
    return null;
  }
}

function readStatus(pid: string): { parent: number; resident: number } | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const figure = (name: string) => Number(new RegExp(`^${name}:\\s+(\\d+)`, 'm').exec(status)?.[1] ?? 0);
    return { parent: figure('PPid'), resident: figure('VmRSS') / 1024 };
  } catch {
    // It ended meanwhile.
    return null;
  }
}
