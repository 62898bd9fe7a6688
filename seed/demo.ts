import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { runDemo } from './run-demo';

// npm run demo: a fresh demo fleet in an SQLite file, the application built over it, and its address.
const folder = join(process.cwd(), 'data');
const file = join(folder, 'demo.db');
mkdirSync(folder, { recursive: true });
for (const path of [file, `${file}-wal`, `${file}-shm`]) if (existsSync(path)) rmSync(path);
process.exitCode = await runDemo(`file:${file}`);
