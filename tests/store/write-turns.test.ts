import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { makeChange } from '@/lib/store/entities/change';
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
