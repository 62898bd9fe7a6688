import { afterAll, beforeAll, expect, it } from 'vitest';
import * as preview from '@/app/api/v1/imports/preview/route';
import * as imports from '@/app/api/v1/imports/route';
import { importPreviewSchema } from '@/lib/contract/import-preview';
import { previewView } from '@/lib/report/import/preview-view';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, post } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E-1']));
});
afterAll(() => database.remove());

const FILE = 'tag;time;hot_in[Cel]\nE-1;05/06/2026 01:00;80,5\nE-1;05/06/2026 02:00;81,5\n';
const ask = (query: string) => answerOf(imports.POST(post(`imports?timeZone=UTC&check=1${query}`, FILE)));
const look = async (query: string) => {
  const answer = await answerOf(preview.POST(post(`imports/preview?timeZone=UTC${query}`, FILE)));
  return importPreviewSchema.parse(answer.document);
};
const timesIn = (view: ReturnType<typeof previewView>) =>
  view.facts.find(({ label }) => label === 'Times')?.value;

it('a file whose order of day and month nothing shows is refused over HTTP, and read in the order asked for', async () => {
  const refused = await ask('');
  expect(refused.status).toBe(422);
  expect(JSON.stringify(refused.document)).toContain('day-first or month-first');
  expect((await ask('&timeFormat=day-first')).document).toMatchObject({
    read: 2,
    added: 2,
    setAside: 0,
    firstTime: '2026-06-05T01:00:00.000Z',
  });
  expect((await ask('&timeFormat=month-first')).document).toMatchObject({
    firstTime: '2026-05-06T01:00:00.000Z',
  });
  expect((await ask('&timeFormat=backwards')).status).toBe(422);
});

it('what is asked for stands above the mapping', async () => {
  const mapping = encodeURIComponent(JSON.stringify({ sensors: {}, timeFormat: 'month-first' }));
  const report = await ask(`&mapping=${mapping}&timeFormat=day-first`);
  expect(report.document).toMatchObject({ firstTime: '2026-06-05T01:00:00.000Z' });
});

it('the preview says how times are read, and cannot be imported until it is decided', async () => {
  const open = previewView(await look(''), 'si');
  expect(open.canImport).toBe(false);
  expect(open.statement).toBe('Choose above how the times are written; then the file can be read.');
  expect(timesIn(open)).toBe('not decided: "05/06/2026 01:00" may begin with the day or with the month');
  const decided = previewView(await look('&timeFormat=day-first'), 'si');
  expect(decided.canImport).toBe(true);
  expect(timesIn(decided)).toBe('day, month, year (25.10.2026 02:30): as chosen');
});
