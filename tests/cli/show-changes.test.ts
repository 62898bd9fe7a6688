import { afterAll, beforeAll, expect, it } from 'vitest';
import { changesSchema } from '@/lib/contract/changes';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { runCleanby } from '../support/run-cleanby';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
  const at = Date.parse('2026-05-01T06:30:00Z');
  await recordCleaning(database.context, { tag: 'E-1', at, by: 'Bo Lind' });
});
afterAll(() => database.remove());

const show = (...options: string[]) => runCleanby(['show', 'changes', ...options], database.url);

it('show changes lists who changed what, as a table and as JSON, and refuses a day that is none', async () => {
  const table = await show('--tag', 'E-1');
  expect(table).toMatchObject({ code: 0, stderr: '2 of 2 changes\n' });
  expect(table.stdout).toMatch(/Bo Lind \(command line\)\s+Cleaning of E-1 recorded: 1 May 2026/);
  const json = await show('--who', 'Bo', '--json');
  expect(changesSchema.parse(JSON.parse(json.stdout)).changes).toMatchObject([
    { subject: 'cleaning', action: 'added', name: 'E-1' },
  ]);
  const refused = await show('--since', 'yesterday');
  expect(refused.code).toBe(1);
  expect(refused.stderr).toContain('from: write it as YYYY-MM-DD');
});
