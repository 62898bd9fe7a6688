import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { makeChange } from '@/lib/store/entities/change';
import { unitIds } from '@/lib/store/entities/units';
import { registerFleet } from '@/lib/work/register-fleet';
import { authorOf } from '../support/author-of';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeEach(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
});
afterEach(() => database.remove());

const AUTHOR = authorOf({ by: 'test', at: 0 });
const settings = async () =>
  (await database.context.store.entities.setting.findMany({ orderBy: { key: 'asc' } })).map(({ key }) => key);

describe('who writes to a file while another process does', () => {
  it('waits for another process without standing still, and is never told that the database is busy', async () => {
    const { entities, series } = database.context.store;
    const ids = await unitIds(entities);
    const other = new Database(`${database.folder}/cleanby.db`);
    other.exec('BEGIN IMMEDIATE');
    let ended = 0;
    const done = () => {
      ended += 1;
    };
    const writers = [
      makeChange(entities, AUTHOR, ({ transaction }) =>
        transaction.setting.create({ data: { key: 'transaction', value: '' } }),
      ).then(done),
      entities.setting.create({ data: { key: 'alone', value: '' } }).then(done),
      series.markDue(ids.get('E-1')!, 5).then(done),
    ];
    // The process goes on: many reads are answered while all three wait.
    for (let read = 0; read < 20; read++) expect(await settings()).toEqual([]);
    expect(ended).toBe(0);
    other.exec('COMMIT');
    other.close();
    await Promise.all(writers);
    expect(await settings()).toEqual(['alone', 'transaction']);
  });
});
