import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { verifyDatabase } from '@/lib/work/verify-database';
import { analysedContent, freshCopy, makeDueFleet, NOW } from './fleet';
import { killAtMoments, runKilled, runWhole } from './killed-run';

const KILLS = 18;
const SEED = 20261126;

let folder: string;
let base: string;

beforeAll(async () => {
  vi.stubEnv('CLEANBY_NOW', NOW);
  folder = mkdtempSync(join(tmpdir(), 'cleanby-kill-'));
  base = join(folder, 'base.db');
  await makeDueFleet(`file:${base}`);
});
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

describe('an analysis killed anywhere', () => {
  it(`leaves what it had not done due, ${KILLS} times over, and ends like one never killed`, async () => {
    const whole = freshCopy(base);
    const { worked } = await runWhole(['analyse'], whole);
    const never = analysedContent(whole.path);
    expect(never.due).toBe(0);
    whole.remove();
    let midway = 0;
    const killed = await killAtMoments({ kills: KILLS, seed: SEED, worked }, async (after) => {
      const copy = freshCopy(base);
      const run = await runKilled(['analyse'], { ...copy, after });
      expect(verifyDatabase(copy.url).problems).toBe(0);
      const left = analysedContent(copy.path);
      if (run.isKilled && left.due > 0 && left.days > 0) midway++;

      const context = await openContext(copy.url);
      await analyse(context);
      await closeContext(context);
      expect(analysedContent(copy.path)).toEqual(never);
      copy.remove();
      return run;
    });
    expect(killed).toBe(KILLS);
    expect(midway).toBeGreaterThanOrEqual(KILLS * 0.5);
  }, 600_000);
});
