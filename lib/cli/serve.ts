import { spawn } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { join } from 'node:path';
import type { Command } from 'commander';
import { message } from './output';

/** Loopback only: there is no sign-in yet, so nobody else on the network may reach it. */
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

/** Builds the web application where the sources are newer than the build, serves it and prints its address. */
export async function serve(port: number | null): Promise<number> {
  const root = process.env.CLEANBY_ROOT ?? process.cwd();
  if (await needsBuild(root)) {
    message('Building the web application (about a minute, once) …');
    const code = await next(root, ['build']);
    if (code !== 0) return code;
  }
  const free = port ?? (await freePort(DEFAULT_PORT));
  message(`Cleanby is at http://${HOST}:${free} (stop it with Ctrl-C)`);
  return serveBuilt(root, free);
}

/** Serves an application already built, until it is stopped. */
export function serveBuilt(root: string, port: number): Promise<number> {
  return next(root, ['start', '--hostname', HOST, '--port', String(port)]);
}

function next(root: string, args: string[]): Promise<number> {
  const binary = createRequire(import.meta.url).resolve('next/dist/bin/next');
  const child = spawn(process.execPath, [binary, ...args], {
    cwd: root,
    // What the build says goes to stderr like every message; stdout stays for data.
    stdio: ['ignore', 2, 2],
    env: { ...process.env, CLEANBY_ROOT: root, NEXT_TELEMETRY_DISABLED: '1' },
  });
  const stop = (signal: NodeJS.Signals) => child.kill(signal);
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  return new Promise((resolve) => child.on('exit', (code) => resolve(code ?? 0)));
}

const SOURCES = ['app', 'lib', 'prisma', 'next.config.mjs', 'package-lock.json'];

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
