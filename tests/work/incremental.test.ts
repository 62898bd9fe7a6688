import { describe, expect, it } from 'vitest';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom, type Random } from '@/lib/core/stats/random';
import { unitIds } from '@/lib/store/entities/units';
import { analyse } from '@/lib/work/analyse';
import type { Context } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { showUnit } from '@/lib/work/show-results';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { temporaryDatabase } from '../support/temporary-database';

const DAY = 86_400_000;
const HOUR = 3_600_000;
const END = Date.parse('2026-04-20T00:00:00Z');
const HISTORIES = 12;
const SEED = 4711;

function pick(readings: ReadingColumns, rows: number[]): ReadingColumns {
  const part = makeReadingColumns(rows.length);
  rows.forEach((row, i) => {
    part.time[i] = readings.time[row]!;
    part.flowBasis[i] = readings.flowBasis[row]!;
    for (const sensor of SENSORS) part[sensor][i] = readings[sensor][row]!;
  });
  return part;
}

/** Everything stored of the unit's results, without the instants of the computing itself. */
async function stored(context: Context, tag: string) {
  const unitId = (await unitIds(context.store.entities)).get(tag)!;
  const row = await context.store.entities.unitResult.findUniqueOrThrow({ where: { unitId } });
  const { computedAt: _, trend, ...rest } = row;
  const { searches, ...said } = JSON.parse(trend) as { searches?: { least: unknown }[] };
  return {
    ...rest,
    said,
    // The least fall looked for hangs on the allowance of the day of the search, and says nothing of what was found.
    searches: searches?.map(({ least: _least, ...found }) => found),
    daily: await context.store.series.readDaily(unitId),
    shown: await showUnit(context, tag),
  };
}

/** A record arrives in random pieces, late, changed and undone, with analyses between; then all is worked out anew. */
async function history(random: Random, seed: number) {
  const database = await temporaryDatabase();
  const { context } = database;
  const { fleet, plans } = makeHeldOutFleet(seed, 1);
  const unit = { ...plans[0]!.unit, clean: seed % 2 === 0 ? ('learned' as const) : ('datasheet' as const) };
  const { tag } = unit;
  await registerFleet(context, { ...fleet, units: [unit] });
  const span = { start: END - 70 * DAY, end: END, stepMs: HOUR, seed };
  const { readings } = generateReadings(plans[0]!, span);
  const pieces: number[][] = Array.from({ length: 5 }, () => []);
  for (let row = 0; row < readings.time.length; row++) {
    // Mostly in order, with one row in ten anywhere: late data.
    const inOrder = Math.floor((row / readings.time.length) * pieces.length);
    pieces[random.uniform() < 0.1 ? Math.floor(random.uniform() * pieces.length) : inOrder]!.push(row);
  }
  for (const rows of pieces) {
    await importColumns(context, tag, pick(readings, rows));
    if (random.uniform() < 0.7) await analyse(context);
    if (random.uniform() < 0.4) {
      await recordCleaning(context, { tag, at: END - Math.floor(random.uniform() * 60 * 24) * HOUR });
    }
    if (random.uniform() < 0.4) {
      const changed = pick(readings, rows.slice(0, 30));
      changed.hotIn.forEach((value, i) => {
        changed.hotIn[i] = value + 1;
      });
      const { batch } = await importColumns(context, tag, changed);
      await analyse(context);
      if (random.uniform() < 0.5)
        await context.store.series.undoBatch(batch!, { actor: context.actor, at: END });
    }
  }
  await analyse(context);
  const incremental = await stored(context, tag);
  await analyse(context, { all: true });
  const fromScratch = await stored(context, tag);
  await database.remove();
  return { incremental, fromScratch };
}

describe('incremental analysis', () => {
  it(`equals analysis from scratch to the last digit over ${HISTORIES} random histories`, async () => {
    const random = makeRandom(SEED);
    for (let i = 0; i < HISTORIES; i++) {
      const { incremental, fromScratch } = await history(random, 900 + i);
      expect(fromScratch.daily.day.length).toBeGreaterThan(60);
      expect(incremental).toEqual(fromScratch);
    }
  }, 180_000);
});

describe('readings that arrive while a unit is analysed', () => {
  it('are in its results in the end', async () => {
    const database = await temporaryDatabase();
    const { context } = database;
    const { fleet, plans } = makeHeldOutFleet(77, 1);
    const { tag } = plans[0]!.unit;
    await registerFleet(context, fleet);
    const span = { start: END - 30 * DAY, end: END, stepMs: HOUR, seed: 77 };
    const { readings } = generateReadings(plans[0]!, span);
    const rows = [...readings.time.keys()];
    const late = rows.filter((row) => row % 3 === 0);
    await importColumns(
      context,
      tag,
      pick(
        readings,
        rows.filter((row) => row % 3 !== 0),
      ),
    );

    const { series } = context.store;
    const { analysis } = series;
    const { saveAnalysed } = analysis;
    // The unit has been worked out from the readings of before, and is about to be written down.
    analysis.saveAnalysed = async (worker, units) => {
      analysis.saveAnalysed = saveAnalysed;
      expect(units.map(({ written }) => written !== null)).toEqual([true]);
      await importColumns(context, tag, pick(readings, late));
      await saveAnalysed(worker, units);
    };
    expect((await analyse(context)).analysed).toEqual([tag]);
    expect(await series.due()).toEqual(new Map());
    const unitId = (await unitIds(context.store.entities)).get(tag)!;
    const daily = await series.readDaily(unitId);
    expect(daily.readings.reduce((sum, count) => sum + count, 0)).toBe(rows.length);
    await database.remove();
  });
});
