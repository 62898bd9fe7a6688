import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backUp } from '@/lib/work/back-up';
import { restore } from '@/lib/work/restore';
import { verifyDatabase } from '@/lib/work/verify-database';
import { inDatabase, makePlant } from '../safekeeping/plant';
import { freshCopy } from './fleet';
import { killAtMoments, runKilled, runWhole } from './killed-run';

const KILLS = 6;
/** Readings put in beside the plant's own, so that a copy takes its time. */
const MORE = 250_000;
const SEED = 20261128;

let folder: string;
let base: string;
let readings: number;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-kill-'));
  base = join(folder, 'base.db');
  const plant = await makePlant({ hours: 240, analysed: false });
  cpSync(plant.path, base);
  plant.remove();
  inDatabase(base, (database) =>
    database.exec(`
      UPDATE import_batch SET added = added + ${MORE} WHERE id = 1;
      WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${MORE})
      INSERT INTO reading (unit_id, time, hot_in, flow_basis, batch_id) SELECT 1, i, 50 + i % 7, 0, 1 FROM n`),
  );
  readings = readingsIn(base);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function readingsIn(path: string): number {
  return inDatabase(path, (it) => it.prepare<[], number>('SELECT count(*) FROM reading').pluck().get()!);
}

const partsIn = (place: string) => readdirSync(place).filter((name) => name.includes('.part'));

describe('a backup killed anywhere', () => {
  it(`is whole or not there, ${KILLS} times over, and what it left is cleared away by the next`, async () => {
    const whole = freshCopy(base);
    const { worked } = await runWhole(['backup', join(whole.folder, 'copy.db')], whole);
    whole.remove();
    let midway = 0;
    const killed = await killAtMoments({ kills: KILLS, seed: SEED, worked }, async (after) => {
      const place = freshCopy(base);
      const file = join(place.folder, 'copy.db');
      const run = await runKilled(['backup', file], { ...place, after });
      if (run.isKilled && !existsSync(file)) midway++;
      if (existsSync(file)) expect(verifyDatabase(`file:${file}`).problems).toBe(0);
      for (const part of partsIn(place.folder)) {
        expect(() => restore(join(place.folder, part), `file:${place.folder}/new.db`)).toThrow(
          /interrupted|cannot be/,
        );
      }
      expect(existsSync(join(place.folder, 'new.db'))).toBe(false);
      expect(readingsIn(place.path)).toBe(readings);
      backUp({ file, replace: true, databaseUrl: place.url });
      expect(readingsIn(file)).toBe(readings);
      expect(partsIn(place.folder)).toEqual([]);
      place.remove();
      return run;
    });
    expect(killed).toBe(KILLS);
    expect(midway).toBeGreaterThanOrEqual(KILLS / 3);
  }, 600_000);
});

describe('a restore killed anywhere', () => {
  it(`has brought everything back or nothing, ${KILLS} times over, and can be done again`, async () => {
    const file = join(folder, 'copy.db');
    backUp({ file, databaseUrl: `file:${base}` });
    const target = () => {
      const place = mkdtempSync(join(folder, 'target-'));
      return { folder: place, path: join(place, 'plant.db'), url: `file:${join(place, 'plant.db')}` };
    };
    const { worked } = await runWhole(['restore', file], target());
    let midway = 0;
    const killed = await killAtMoments({ kills: KILLS, seed: SEED + 1, worked }, async (after) => {
      const place = target();
      const run = await runKilled(['restore', file], { ...place, after });
      if (!existsSync(place.path)) {
        if (run.isKilled) midway++;
        restore(file, place.url);
      }
      expect(verifyDatabase(place.url).problems).toBe(0);
      expect(readingsIn(place.path)).toBe(readings);
      return run;
    });
    expect(killed).toBe(KILLS);
    expect(midway).toBeGreaterThanOrEqual(KILLS / 3);
  }, 600_000);
});
