import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { GET } from '@/app/api/health/route';
import { closeAllContexts } from '@/lib/work/context';
import { asStranger } from './as-stranger';
import { makePlant, type Plant } from './plant';

const room = vi.hoisted(() => ({ free: null as number | null }));
vi.mock('node:fs', async (original) => {
  const real = (await original()) as typeof import('node:fs');
  const statfsSync = (path: string) => {
    const found = real.statfsSync(path);
    return room.free === null ? found : { ...found, bsize: 1, bavail: room.free };
  };
  return { ...real, statfsSync, default: { ...real, statfsSync } };
});

let plant: Plant;
beforeEach(async () => {
  room.free = null;
  plant = await makePlant({ hours: 24, analysed: false });
  vi.stubEnv('DATABASE_URL', plant.url);
});
afterEach(async () => {
  vi.unstubAllEnvs();
  await closeAllContexts();
  plant.remove();
});

async function health(): Promise<{ status: number; document: Record<string, unknown> }> {
  const response = await GET();
  return { status: response.status, document: (await response.json()) as Record<string, unknown> };
}

describe('the health of the server', () => {
  it('is ok where its database can be read and written, and says nothing of the plant', async () => {
    const { status, document } = await health();
    expect(status).toBe(200);
    expect(document).toEqual({
      status: 'ok',
      version: expect.stringMatching(/^\d+\.\d+\.\d+$/),
      database: 'ok',
      migrations: expect.any(Number),
      uptime: expect.any(Number),
    });
  });

  it('is ok while somebody else writes', async () => {
    await health();
    const writer = new Database(plant.path);
    writer.exec('BEGIN IMMEDIATE');
    expect((await health()).document).toMatchObject({ status: 'ok', database: 'ok' });
    writer.close();
  });

  it('fails with 503 where the file is no database any more', async () => {
    await health();
    await closeAllContexts();
    writeFileSync(plant.path, 'overwritten by somebody\n'.repeat(500));
    expect(await health()).toMatchObject({
      status: 503,
      document: { status: 'failing', database: 'unreadable' },
    });
  });

  it('fails with 503 where the database may not be written any more', async () => {
    await health();
    const { chmodSync } = await import('node:fs');
    chmodSync(plant.folder, 0o755);
    for (const ending of ['', '-wal', '-shm']) chmodSync(`${plant.path}${ending}`, 0o444);
    const found = await asStranger(health);
    expect(found).toMatchObject({ status: 503, document: { status: 'failing' } });
    expect(found.document.database).toMatch(/read-only|unreadable/);
  });

  it('fails with 503 where the disk is about to be full', async () => {
    room.free = 1_000_000;
    expect(await health()).toMatchObject({ status: 503, document: { database: 'disk-full' } });
  });

  it('fails where there is none to be had', async () => {
    vi.stubEnv('DATABASE_URL', `file:${join(plant.path, 'below-a-file.db')}`);
    expect(await health()).toMatchObject({
      status: 503,
      document: { database: 'unreadable', migrations: 0 },
    });
  });
});
