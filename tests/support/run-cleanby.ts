import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const COMMAND = fileURLToPath(new URL('../../lib/cli/cleanby.mjs', import.meta.url));

export type Run = { code: number | null; stdout: string; stderr: string };

/** Starts the command line against a database. */
export function startCleanby(args: string[], databaseUrl: string, cwd?: string): ChildProcess {
  return spawn(process.execPath, [COMMAND, ...args], {
    cwd,
    env: { ...process.env, DATABASE_URL: databaseUrl },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

/** Runs the command line to its end. */
export function runCleanby(args: string[], databaseUrl: string, cwd?: string): Promise<Run> {
  const child = startCleanby(args, databaseUrl, cwd);
  const run: Run = { code: null, stdout: '', stderr: '' };
  child.stdout?.on('data', (data) => (run.stdout += data));
  child.stderr?.on('data', (data) => (run.stderr += data));
  return new Promise((resolve) => child.on('close', (code) => resolve({ ...run, code })));
}
