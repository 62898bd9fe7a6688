import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { serveBuilt } from '@/lib/cli/serve';
import { seedDemo } from '@/seed/seed-demo';
import { PAGES_NOW } from './pages-clock';

// npx tsx tests/support/serve-pages.ts FOLDER PORT: the demo fleet at a fixed day, and the built application over it.
const [folder, port] = process.argv.slice(2);
if (folder === undefined || port === undefined) throw new Error('give a folder and a port');
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
process.env.DATABASE_URL = `file:${join(folder, 'cleanby.db')}`;
// The tests sign in by the demonstration's accounts.
process.env.CLEANBY_DEMO = '1';

await seedDemo(process.env.DATABASE_URL, { end: Date.parse(PAGES_NOW) });
process.exitCode = await serveBuilt(process.cwd(), Number(port));
