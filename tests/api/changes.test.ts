import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as changes from '@/app/api/v1/changes/route';
import * as replaced from '@/app/api/v1/imports/[batch]/replaced/route';
import * as undoPreview from '@/app/api/v1/imports/[batch]/undo-preview/route';
import { changesSchema } from '@/lib/contract/changes';
import { replacedReadingsSchema, undoPreviewSchema } from '@/lib/contract/replaced-readings';
import { importReadings } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E/1', 'E-2']));
  for (const value of [50, 60]) {
    const text = `tag,time,hot_in[Cel]\nE/1,2026-01-01T00:00:00Z,${value}\n`;
    await importReadings(database.context, { name: 'one.csv', source: bytesOf(text) });
  }
  await database.context.store.entities.changeRecord.create({
    data: {
      at: new Date(),
      actorKind: 'person',
      actorName: 'Ann Perez',
      subject: 'account',
      subjectName: 'bo@plant.example',
      action: 'added',
    },
  });
});
afterAll(() => database.remove());

async function* bytesOf(text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text);
}

const read = (query = '') => answerOf(changes.GET(request(`changes${query}`)));
const at = (batch: string) => ({ params: Promise.resolve({ batch }) });

describe('changes over HTTP', () => {
  it('come newest first in words, narrowed by the query', async () => {
    const { status, document } = await read('?name=E%2F1');
    expect(status).toBe(200);
    expect(changesSchema.parse(document)).toMatchObject({
      total: 1,
      next: null,
      changes: [{ subject: 'unit', action: 'added', name: 'E/1', actor: { name: 'command line' } }],
    });
    const imports = changesSchema.parse((await read('?subject=import')).document).changes;
    expect(imports.map(({ text }) => text)).toEqual([
      'Import 2 (one.csv): 0 readings added, 1 replaced, 0 set aside',
      'Import 1 (one.csv): 1 reading added, 0 replaced, 0 set aside',
    ]);
  });

  it('hold nothing of accounts for a token, which has no say over people', async () => {
    expect((await read('?subject=account')).document).toMatchObject({ total: 0, changes: [] });
    const file = await changes.GET(request('changes?format=csv'));
    expect(file.headers.get('content-disposition')).toContain('cleanby-changes.csv');
    const text = await file.text();
    expect(text).toContain('one.csv');
    expect(text).not.toContain('bo@plant.example');
  });

  it('are refused with the field where the query cannot be read', async () => {
    const { status, document } = await read('?from=May&subject=weather');
    expect(status).toBe(422);
    expect((document.errors as { field: string }[]).map(({ field }) => field).sort()).toEqual([
      'from',
      'subject',
    ]);
  });
});

describe('an import over HTTP', () => {
  it('tells what its undo would do, and which values it replaced', async () => {
    const preview = await answerOf(undoPreview.GET(request('imports/2/undo-preview'), at('2')));
    expect(undoPreviewSchema.parse(preview.document)).toMatchObject({ removed: 0, restored: 1, kept: 0 });
    const list = await answerOf(replaced.GET(request('imports/2/replaced'), at('2')));
    expect(replacedReadingsSchema.parse(list.document).rows).toMatchObject([
      { tag: 'E/1', sensor: 'hotIn', unit: 'Cel', before: 50, after: 60, beforeImport: 1 },
    ]);
    const file = await replaced.GET(request('imports/2/replaced?format=csv'), at('2'));
    expect(await file.text()).toContain(',hotIn,50,Cel,60,Cel,1,no');
    expect((await answerOf(replaced.GET(request('imports/9/replaced'), at('9')))).status).toBe(404);
  });
});
