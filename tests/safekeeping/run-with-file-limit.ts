import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Run } from '../support/run-cleanby';

const COMMAND = fileURLToPath(new URL('../../lib/cli/cleanby.mjs', import.meta.url));
/** What the shell counts files in [bytes]. */
const BLOCK = 512;

/**
 * Runs the command line where no file may grow beyond a size: the system itself refuses the write, as it does under a quota.
 */
export function runWithFileLimit(
  args: string[],
  { url, kibibytes }: { url: string; kibibytes: number },
): Promise<Run> {
  const blocks = (kibibytes * 1024) / BLOCK;
  const child = spawn(
    'sh',
    ['-c', `ulimit -f ${blocks}; exec "$@"`, 'sh', process.execPath, COMMAND, ...args],
    {
      // What the loader keeps of compiled files is written before, or not at all.
      env: { ...process.env, DATABASE_URL: url, TSX_DISABLE_CACHE: '1' },
      stdio: ['ignore', 'pipe', 'pipe'],
    },
  );
  const run: Run = { code: null, stdout: '', stderr: '' };
  child.stdout.on('data', (data) => (run.stdout += data));
  child.stderr.on('data', (data) => (run.stderr += data));
  return new Promise((resolve) => child.on('close', (code) => resolve({ ...run, code })));
}
