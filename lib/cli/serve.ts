import { spawn } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { createServer as createHttpServer, type RequestListener } from 'node:http';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { join } from 'node:path';
import type { Command } from 'commander';
import compression from 'compression';
import { stateTransport } from '@/lib/auth/transport-policy';
import { AppError } from '@/lib/contract/app-error';
import { openDataVersion } from '@/lib/store/data-version';
import { addressed } from '@/lib/work/back-up';
import { closeAllContexts, closeContext, openContext } from '@/lib/work/context';
import { prepareFleetIndex } from '@/lib/work/fleet-index';
import { log, logAsServer, logRequest } from '@/lib/work/log';
import { sweepUploads } from '@/lib/work/uploads/upload-folder';
import { offerFirstRun } from './first-run';
import { serveUntilStopped } from './graceful-stop';
import { keepPages } from './kept-pages';
import { message } from './output';
import { keepWorkerBeside } from './worker-beside';

/** Loopback only: for a plant, a proxy with TLS stands in front. */
const HOST = '127.0.0.1';
const DEFAULT_PORT = 4000;

export function addServe(program: Command): void {
  program
    .command('serve')
    .option('--port <port>', 'default 4000, or the next that is free')
    .description('the web application on this machine')
    .action(async (options: { port?: string }) => {
      process.exitCode = await serve(options.port === undefined ? null : Number(options.port));
    });
}

/** Builds the web application where the sources are newer than the build, and serves it. */
export async function serve(port: number | null): Promise<number> {
  const root = process.env.CLEANBY_ROOT ?? process.cwd();
  if (await needsBuild(root)) {
    message('Building the web application (about a minute, once) …');
    const code = await build(root);
    if (code !== 0) return code;
  }
  const free = port ?? (await freePort(DEFAULT_PORT));
  return serveBuilt(root, free);
}

/**
 * Serves an application already built, in this process, until it is asked to stop; prints its address.
 *
 * @throws AppError 'database-unusable' before anything is served
 */
export async function serveBuilt(root: string, port: number): Promise<never> {
  logAsServer();
  Object.assign(process.env, { NODE_ENV: 'production', CLEANBY_ROOT: root, NEXT_TELEMETRY_DISABLED: '1' });
  // What is let in from this machine only depends on nothing else being listened to.
  process.env.CLEANBY_BIND = HOST;
  // Tells at once what is wrong with the database, and brings its schema up to date. The bundled application opens it anew:
  // it has classes of its own.
  const context = await openContext();
  const firstRun = await offerFirstRun(context);
  // What is wrong with a result is told by the page that shows it, not by serving nothing.
  await prepareFleetIndex(context).catch((error) => log.warn({ err: error }, 'the fleet could not be read'));
  await closeContext(context);
  await sweepUploads();
  const { default: next } = await import('next');
  const application = next({ dev: false, dir: root, hostname: HOST, port });
  await application.prepare();
  const version = openDataVersion(addressed());
  const pages = application.getRequestHandler();
  const server = createHttpServer(
    logged(compressed(version === null ? pages : keepPages(pages, version.read))),
  );
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error) => reject(portRefused(port, error)));
    server.listen(port, HOST, resolve);
  });
  message(`Cleanby is at http://${HOST}:${port} (stop it with Ctrl-C)`);
  if (firstRun !== null) message(firstRun);
  log.info({ port }, 'started');
  const endWorker = keepWorkerBeside();
  const close = async () => {
    await endWorker();
    await closeAllContexts();
    version?.close();
  };
  // Timers of the framework would keep a stopped process alive.
  process.exit(await serveUntilStopped(server, { close }));
}

function portRefused(port: number, { message: why }: Error): AppError {
  return new AppError(
    'invalid-input',
    `Port ${port} cannot be listened at (${why}): name another with --port`,
  );
}

/** One line in the log for pages and their actions that changed something or failed; routes under /api write their own. */
function logged(handler: RequestListener): RequestListener {
  return (request, response) => {
    const { method = 'GET', url = '/' } = request;
    const began = performance.now();
    if (!url.startsWith('/api/')) {
      response.once('close', () => logRequest({ method, url }, response.statusCode, { began }));
    }
    stateTransport(request, response);
    return handler(request, response);
  };
}

/** Here and not in the framework, so that what is kept of a page is its text. */
function compressed(handler: RequestListener): RequestListener {
  const compress = compression();
  // Its types are those of a framework, of which it uses nothing.
  type Given = Parameters<typeof compress>;
  return (request, response) =>
    compress(request as Given[0], response as Given[1], () => handler(request, response));
}

function build(root: string): Promise<number> {
  const binary = createRequire(import.meta.url).resolve('next/dist/bin/next');
  const child = spawn(process.execPath, [binary, 'build'], {
    cwd: root,
    // What the build says goes to stderr like every message; stdout stays for data.
    stdio: ['ignore', 2, 2],
    env: { ...process.env, CLEANBY_ROOT: root, NEXT_TELEMETRY_DISABLED: '1' },
  });
  const stop = (signal: NodeJS.Signals) => child.kill(signal);
  process.on('SIGINT', stop).on('SIGTERM', stop);
  return new Promise((resolve) => {
    child.on('exit', (code) => {
      process.off('SIGINT', stop).off('SIGTERM', stop);
      resolve(code ?? 1);
    });
  });
}

const SOURCES = [
  'app',
  'lib',
  'prisma',
  'proxy.ts',
  'instrumentation-client.ts',
  'next.config.mjs',
  'package-lock.json',
];

async function needsBuild(root: string): Promise<boolean> {
  const build = join(root, '.next', 'BUILD_ID');
  if (!existsSync(build)) return true;
  const built = statSync(build).mtimeMs;
  for (const source of SOURCES) {
    if ((await newest(join(root, source))) > built) return true;
  }
  return false;
}

async function newest(path: string): Promise<number> {
  const status = statSync(path);
  if (!status.isDirectory()) return status.mtimeMs;
  const entries = await readdir(path);
  const times = await Promise.all(entries.map((entry) => newest(join(path, entry))));
  return Math.max(0, ...times);
}

/** The first port from `wanted` on that nothing listens at. */
export async function freePort(wanted: number): Promise<number> {
  const taken = await new Promise<boolean>((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(true));
    probe.listen(wanted, HOST, () => probe.close(() => resolve(false)));
  });
  return taken ? freePort(wanted + 1) : wanted;
}
