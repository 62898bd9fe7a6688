// Runs after `npm ci`: generates the clients of both databases and puts the `cleanby` command where `npx` finds it.
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { POSTGRES_SCHEMA, writePostgresSchema } from './derive-postgres.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const prisma = createRequire(import.meta.url).resolve('prisma/build/index.js');
writePostgresSchema();
generate([]);
generate(['--schema', POSTGRES_SCHEMA]);

function generate(options) {
  const { status } = spawnSync(
    process.execPath,
    [prisma, 'generate', '--config', 'prisma/prisma.config.ts', ...options],
    {
      cwd: root,
      stdio: ['ignore', 'ignore', 'inherit'],
      // `generate` insists on a schema engine it does not use, and would download one; any existing program satisfies it.
      env: { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, CHECKPOINT_DISABLE: '1' },
    },
  );
  if (status !== 0) process.exit(status ?? 1);
}

const bin = `${root}node_modules/.bin`;
mkdirSync(bin, { recursive: true });
chmodSync(`${root}lib/cli/cleanby.mjs`, 0o755);
if (process.platform === 'win32') {
  writeFileSync(`${bin}/cleanby.cmd`, '@node "%~dp0\\..\\..\\lib\\cli\\cleanby.mjs" %*\r\n');
} else {
  rmSync(`${bin}/cleanby`, { force: true });
  symlinkSync('../../lib/cli/cleanby.mjs', `${bin}/cleanby`);
}
