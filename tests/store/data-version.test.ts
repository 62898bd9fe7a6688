import { describe, expect, it } from 'vitest';
import { openDataVersion } from '@/lib/store/data-version';
import { registerFleet } from '@/lib/work/register-fleet';
import { temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

describe('the number of a database', () => {
  it('is another one after every commit, and the same where nothing was written', async () => {
    const database = await temporaryDatabase();
    const version = openDataVersion(database.url)!;
    try {
      const first = version.read();
      expect(version.read()).toBe(first);
      await registerFleet(database.context, plainFleet(['E-1']));
      const second = version.read();
      expect(second).not.toBe(first);
      await database.context.store.entities.unit.findMany();
      expect(version.read()).toBe(second);
      version.close();
      expect(version.read()).toBeNull();
    } finally {
      await database.remove();
    }
  });

  it('is none on a server', () => {
    expect(openDataVersion('postgres://plant.example/cleanby')).toBeNull();
  });
});
