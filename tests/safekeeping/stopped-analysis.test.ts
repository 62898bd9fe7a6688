import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { analyse } from '@/lib/work/analyse';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { analysedContent, freshCopy, makeDueFleet, NOW } from '../kill/fleet';
import { readingsCsv } from '../support/api';
import { bytesOf } from './plant';

const UNITS = 4;

let folder: string;
/** All of whose units are due; and one that is analysed but for a reading of the next day, which moves the day of all. */
let [due, nextDay] = ['', ''];

beforeAll(async () => {
  vi.stubEnv('CLEANBY_NOW', NOW);
  folder = mkdtempSync(join(tmpdir(), 'cleanby-stopped-'));
  due = join(folder, 'due.db');
  nextDay = join(folder, 'next-day.db');
  await makeDueFleet(`file:${due}`, UNITS);
  cpSync(due, nextDay);
  await inContext(`file:${nextDay}`, async (context) => {
    await analyse(context);
    const source = bytesOf(readingsCsv('HX-1', 1, '2026-04-21T06:00:00Z'));
    await importReadings(context, { name: 'next-day.csv', source });
  });
}, 240_000);
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});

async function inContext<T>(url: string, work: (context: Context) => Promise<T>): Promise<T> {
  const context = await openContext(url);
  try {
    return await work(context);
  } finally {
    await closeContext(context);
  }
}

class Stopped extends Error {}

/** Stops an analysis just before it would write for the n-th time. */
function stopAtWrite(context: Context, n: number): void {
  let writes = 0;
  const { series } = context.store;
  const stopping =
    <Arguments extends unknown[], T>(verb: string, real: (...args: Arguments) => Promise<T>) =>
    async (...args: Arguments): Promise<T> => {
      if (++writes === n) throw new Stopped(verb);
      return real(...args);
    };
  series.markAllDue = stopping('markAllDue', series.markAllDue);
  const { analysis } = series;
  analysis.takeDue = stopping('takeDue', analysis.takeDue);
  analysis.saveAnalysed = stopping('saveAnalysed', analysis.saveAnalysed);
}

/** What an analysis that nobody stops makes of a database. */
async function neverStopped(base: string): Promise<ReturnType<typeof analysedContent>> {
  const copy = freshCopy(base);
  await inContext(copy.url, (context) => analyse(context));
  const content = analysedContent(copy.path);
  copy.remove();
  return content;
}

/** Whether an analysis had a n-th write to be stopped at. */
async function isStoppedAt(url: string, n: number): Promise<boolean> {
  return inContext(url, async (context) => {
    stopAtWrite(context, n);
    try {
      await analyse(context);
      return false;
    } catch (error) {
      expect(error).toBeInstanceOf(Stopped);
      return true;
    }
  });
}

describe('an analysis stopped anywhere', () => {
  for (const [what, base] of [
    ['all units are due', () => due],
    ['one unit is due and the day of all has moved', () => nextDay],
  ] as const) {
    it(`ends, when it is done again, as if it had never been stopped: ${what}`, async () => {
      const whole = await neverStopped(base());
      expect(whole).toMatchObject({ results: UNITS, due: 0 });
      let stops = 0;
      for (let isStopped = true; isStopped; ) {
        const copy = freshCopy(base());
        isStopped = await isStoppedAt(copy.url, stops + 1);
        if (isStopped) {
          stops++;
          await inContext(copy.url, (context) => analyse(context));
        }
        expect(analysedContent(copy.path)).toEqual(whole);
        copy.remove();
      }
      expect(stops).toBeGreaterThan(UNITS);
    }, 400_000);
  }
});
