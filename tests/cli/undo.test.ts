import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { registerFleet } from '@/lib/work/register-fleet';
import { readingsCsv } from '../support/api';
import { runCleanby } from '../support/run-cleanby';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-undo-'));
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1']));
});
afterAll(async () => {
  await database.remove();
  rmSync(folder, { recursive: true, force: true });
});

const cleanby = (...args: string[]) => runCleanby(args, database.url);
const file = (name: string, text: string) => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const readings = () => database.context.store.entities.reading.count();

describe('cleanby import, show imports and undo', { timeout: 240_000 }, () => {
  it('take an import in, list it and take it back, once', async () => {
    const taken = await cleanby('import', file('a.csv', readingsCsv('E-1', 6)), '--json');
    expect(taken.code).toBe(0);
    expect(taken.stderr).not.toContain('line end');
    const report = JSON.parse(taken.stdout);
    expect(report).not.toHaveProperty('notice');
    expect(await readings()).toBe(6);
    const undone = await cleanby('undo', String(report.batch), '--json');
    expect(undone.code).toBe(0);
    expect(JSON.parse(undone.stdout)).toMatchObject({ batch: report.batch, removed: 6, units: ['E-1'] });
    expect(undone.stderr).toContain(`import ${report.batch} undone: 6 removed, 0 put back`);
    expect(await readings()).toBe(0);
    const shown = await cleanby('show', 'imports', '--json');
    expect(JSON.parse(shown.stdout).imports).toMatchObject([
      { id: report.batch, source: 'a.csv', added: 6, undoneAt: expect.stringMatching(/Z$/) },
    ]);
    const again = await cleanby('undo', String(report.batch));
    expect(again.code).toBe(1);
    expect(again.stderr).toContain('was undone already');
    expect((await cleanby('undo', 'all')).code).toBe(2);
  });

  it('name a last line without a line end', async () => {
    const cut = file('cut.csv', readingsCsv('E-1', 3).slice(0, -3));
    const taken = await cleanby('import', cut, '--json');
    expect(taken.code).toBe(0);
    expect(taken.stderr).toContain('cut.csv: the last line has no line end; see that the file was not cut');
    expect(JSON.parse(taken.stdout).notice).toContain('the last line has no line end');
  });

  it('end with 1 and the reason where every row was set aside', async () => {
    const text = 'tag,time,hot_in[Cel]\nE-1,2026-01-01T00:00:00Z,much\nE-1,2026-01-01T01:00:00Z,more\n';
    const words = file('words.csv', text);
    const refused = await cleanby('import', words);
    expect(refused.code).toBe(1);
    expect(refused.stderr.trimEnd().split('\n').at(-1)).toMatch(
      /^words\.csv: every row was set aside: line 2, .*"much" is not a number/,
    );
    const checked = await cleanby('import', words, '--check');
    expect(checked.code).toBe(1);
    expect(checked.stderr).toContain('every row was set aside: value-not-a-number');
    const some = file('some.csv', `${text}E-1,2026-01-01T02:00:00Z,50\n`);
    expect((await cleanby('import', some)).code).toBe(0);
  });
});
