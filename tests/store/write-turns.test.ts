import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { LOCAL_ACTOR } from '@/lib/contract/actor';
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

/** A promise and what fulfils it. */
function gate(): { open: () => void; opened: Promise<void> } {
  let open = () => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { open, opened };
}

describe('who writes at the same time', () => {
  it('never lands inside the transaction of somebody else, to be lost with it', async () => {
    const { entities } = database.context.store;
    const begun = gate();
    const end = gate();
    const failing = makeChange(entities, AUTHOR, async ({ transaction }) => {
      await transaction.setting.create({ data: { key: 'given up', value: '' } });
      begun.open();
      await end.opened;
      throw new Error('given up');
    });
    await begun.opened;
    const acknowledged = entities.setting.create({ data: { key: 'acknowledged', value: '' } });
    // Nobody sees what is not committed, and whoever reads does not wait.
    expect(await settings()).toEqual([]);
    end.open();
    await expect(failing).rejects.toThrow('given up');
    await acknowledged;
    expect(await settings()).toEqual(['acknowledged']);
  });

  it('waits for an import that waits for its file, while others read on', async () => {
    const { entities, series } = database.context.store;
    const ids = await unitIds(entities);
    const file = gate();
    const asked = gate();
    async function* slow() {
      asked.open();
      await file.opened;
      yield* [];
    }
    const batch = {
      source: 'slow.csv',
      actor: LOCAL_ACTOR,
      at: 0,
      chunks: slow(),
      unitIds: ids,
      check: false,
    };
    const imported = series.importBatch(batch);
    await asked.opened;
    let isWritten = false;
    const written = makeChange(entities, AUTHOR, async ({ transaction, markDue }) => {
      await transaction.setting.create({ data: { key: 'form', value: '' } });
      await markDue(ids.get('E-1')!, 5);
      isWritten = true;
    });
    const marked = series.markDue(ids.get('E-2')!, 7);
    expect(await settings()).toEqual([]);
    expect(isWritten).toBe(false);
    file.open();
    await Promise.all([imported, written, marked]);
    expect(await settings()).toEqual(['form']);
  });

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

  it('gives the turn up where a transaction fails, times and again', async () => {
    const { entities } = database.context.store;
    for (let round = 0; round < 20; round++) {
      await expect(
        makeChange(entities, AUTHOR, ({ transaction }) =>
          transaction.unit.create({ data: { tag: 'E-1', siteId: 1 } }),
        ),
      ).rejects.toMatchObject({ code: 'P2002' });
    }
    await entities.setting.create({ data: { key: 'still writes', value: '' } });
    expect(await settings()).toEqual(['still writes']);
  });
});
