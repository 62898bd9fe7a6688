import { describe, expect, it } from 'vitest';
import { analyse } from '@/lib/work/analyse';
import { importReadings } from '@/lib/work/import-readings';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { showUnit } from '@/lib/work/show-results';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { bytesOf, readingsCsv } from '../support/readings-csv';
import { temporaryDatabase } from '../support/temporary-database';

const DAY = 86_400_000;
const END = Date.parse('2026-06-01T00:00:00Z');
const UNITS = 4;

/** One fleet through the verbs as a person would: datasheets, CSV files, cleanings, analysis. Answers beside the truth. */
async function walk(seed: number) {
  const database = await temporaryDatabase();
  const { fleet, plans } = makeHeldOutFleet(seed, UNITS);
  await registerFleet(database.context, JSON.parse(JSON.stringify(fleet)));
  const truths = [];
  for (const [index, plan] of plans.entries()) {
    const { readings, truth } = generateReadings(plan, {
      start: END - 270 * DAY,
      end: END,
      stepMs: 3_600_000,
      seed: seed * 100 + index,
    });
    const { tag } = plan.unit;
    const source = bytesOf(readingsCsv(plan.unit, readings));
    await importReadings(database.context, { name: `${tag}.csv`, source });
    for (const { at, isRecorded } of truth.cleanings) {
      if (isRecorded) await recordCleaning(database.context, { tag, at });
    }
    truths.push({ tag, truth });
  }
  await analyse(database.context);
  const shown = [];
  for (const { tag, truth } of truths) shown.push({ truth, result: await showUnit(database.context, tag) });
  await database.remove();
  return shown;
}

describe('ten held-out fleets, register to show', () => {
  it('every unit has a fouling resistance near the truth and a clean-by answer', async () => {
    let covered = 0;
    let dated = 0;
    let count = 0;
    for (let seed = 1; seed <= 10; seed++) {
      for (const { truth, result } of await walk(seed)) {
        count++;
        const actual = truth.smoothFoulingResistance.findLast((value) => !Number.isNaN(value))!;
        const tolerance = Math.max(3 * result.uncertainty!, 0.05 * truth.limit);
        expect(Math.abs(result.foulingResistance! - actual), result.tag).toBeLessThan(tolerance);
        expect(result.cleanBy.withinHorizon, result.tag).not.toBeNull();
        if (result.cleanBy.p50 !== null) dated++;
        if (Math.abs(result.foulingResistance! - actual) <= 1.2816 * result.uncertainty!) covered++;
      }
    }
    expect(count).toBe(10 * UNITS);
    expect(dated).toBeGreaterThan(count / 2);
    // 80 % interval of the fouling resistance: binomial with 40 draws stays above 60 % all but once in a thousand.
    expect(covered / count).toBeGreaterThan(0.6);
  }, 240_000);
});
