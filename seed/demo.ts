import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { serve } from '@/lib/cli/serve';
import { seedDemo } from './seed-demo';

// npm run demo: a fresh demo fleet up to the current hour, the application built over it, and its address.
const folder = join(process.cwd(), 'data');
const file = join(folder, 'demo.db');
mkdirSync(folder, { recursive: true });
for (const path of [file, `${file}-wal`, `${file}-shm`]) if (existsSync(path)) rmSync(path);
process.env.DATABASE_URL = `file:${file}`;
process.env.CLEANBY_ROOT ??= process.cwd();
// The sign-in page offers the demonstration's accounts in one click, on this machine only.
process.env.CLEANBY_DEMO = '1';

const isTerminal = process.stderr.isTTY === true;
const { units, readings, cleanings } = await seedDemo(process.env.DATABASE_URL, {
  onProgress: (done, of, tag) => {
    if (isTerminal) process.stderr.write(`\rMaking the demo fleet: ${done} of ${of} units (${tag})      `);
  },
});
process.stderr.write(
  `\nDemo fleet ready: ${units} units, ${readings} hourly readings, ${cleanings} recorded cleanings.\n`,
);
process.exitCode = await serve(null);
