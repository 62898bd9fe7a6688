import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeChange } from '@/lib/store/entities/change';
import { openStore, type Store } from '@/lib/store/open-store';
import { type EmbeddedServer, startEmbeddedPostgres } from '@/prisma/embedded-server';
import { authorOf } from '../support/author-of';

let server: EmbeddedServer;
let stores: Store[];
beforeAll(async () => {
  server = await startEmbeddedPostgres({ settings: ['fsync=off'] });
  // As two processes are: each with connections of its own.
  stores = [await openStore(server.url), await openStore(server.url.replace('postgres://', 'postgresql://'))];
  await stores[0]!.entities.site.create({ data: { name: 'A', timeZone: 'UTC', currency: 'EUR' } });
});
afterAll(async () => {
  for (const store of stores) await store.close();
  await server.stop();
});

const AUTHOR = authorOf({ by: 'test', at: 0 });

describe('several processes on one PostgreSQL database', () => {
  it('change what they have read one after the other: no change is lost', async () => {
    const changes = Array.from({ length: 40 }, (_, i) =>
      makeChange(stores[i % 2]!.entities, AUTHOR, async ({ transaction }) => {
        const { calendarRevision } = await transaction.site.findUniqueOrThrow({ where: { name: 'A' } });
        await transaction.site.update({
          where: { name: 'A' },
          data: { calendarRevision: calendarRevision + 1 },
        });
      }),
    );
    await Promise.all(changes);
    const { calendarRevision } = await stores[0]!.entities.site.findUniqueOrThrow({ where: { name: 'A' } });
    expect(calendarRevision).toBe(40);
  });

  it('are read by whoever asks while a change waits', async () => {
    const client = new Client(server.url);
    await client.connect();
    await client.query('BEGIN');
    await client.query("UPDATE site SET currency = 'GBP' WHERE name = 'A'");
    const change = makeChange(stores[0]!.entities, AUTHOR, ({ transaction }) =>
      transaction.site.update({ where: { name: 'A' }, data: { timeZone: 'Europe/Oslo' } }),
    );
    for (let read = 0; read < 20; read++)
      expect(await stores[1]!.entities.site.findMany({ select: { currency: true } })).toEqual([
        { currency: 'EUR' },
      ]);
    await client.query('COMMIT');
    await change;
    await client.end();
    expect(await stores[1]!.entities.site.findMany()).toMatchObject([
      { currency: 'GBP', timeZone: 'Europe/Oslo' },
    ]);
  });

  it('are told of a server that lost them, and go on when it answers again', async () => {
    const { entities } = stores[0]!;
    const client = new Client(server.url);
    await client.connect();
    await client.query(
      "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'cleanby'",
    );
    await client.end();
    await entities.site.count().catch(() => {});
    expect(await entities.site.count()).toBe(1);
  });
});
