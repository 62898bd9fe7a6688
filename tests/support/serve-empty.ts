import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { serveBuilt } from '@/lib/cli/serve';

// npx tsx tests/support/serve-empty.ts FOLDER PORT: the built application over a database in which nobody has an account yet.
const [folder, port] = process.argv.slice(2);
if (folder === undefined || port === undefined) throw new Error('give a folder and a port');
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
process.env.DATABASE_URL = `file:${join(folder, 'cleanby.db')}`;

process.exitCode = await serveBuilt(process.cwd(), Number(port));
