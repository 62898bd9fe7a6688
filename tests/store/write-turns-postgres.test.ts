import { setTimeout as pause } from 'node:timers/promises';
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

/** Until a transaction waits for a row that another one has changed. */
async function untilOneWaits(): Promise<void> {
  const client = new Client(server.url);
  await client.connect();
  const waiting = "SELECT 1 FROM pg_locks WHERE NOT granted AND locktype = 'transactionid'";
  while ((await client.query(waiting)).rowCount === 0) await pause(10);
  await client.end();
}

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

  it('make a change once more that lost against another transaction', async () => {
    const [{ entities, series }] = stores as [Store];
    const { id: siteId } = await entities.site.findFirstOrThrow();
    const { id: unitId } = await entities.unit.create({ data: { tag: 'E-1', siteId } });
    await series.markDue(unitId, 5);
    const client = new Client(server.url);
    await client.connect();
    // It is the other that finds out that the two wait for each other, and gives way.
    await client.query("SET deadlock_timeout = '1h'");
    await client.query('BEGIN');
    await client.query('SELECT 1 FROM unit_due WHERE unit_id = $1 FOR UPDATE', [unitId]);
    let waiting: Promise<unknown> | null = null;
    let tries = 0;
    await makeChange(entities, AUTHOR, async ({ transaction, markDue }) => {
      tries++;
      await transaction.site.update({ where: { id: siteId }, data: { currency: `X${tries}` } });
      await markDue(unitId, 3);
      if (waiting !== null) return;
      waiting = client.query("UPDATE site SET time_zone = 'Asia/Tokyo'").then(() => client.query('COMMIT'));
      await untilOneWaits();
    });
    await waiting;
    await client.end();
    expect(tries).toBe(2);
    expect(await entities.site.findFirst()).toMatchObject({ currency: 'X2', timeZone: 'Asia/Tokyo' });
    expect((await series.due()).get(unitId)).toMatchObject({ since: 3 });
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
