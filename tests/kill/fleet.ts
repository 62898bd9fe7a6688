import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { daysIn } from '@/lib/store/series/daily-block';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { contentOf } from '../safekeeping/fill-tables';
import { inDatabase } from '../safekeeping/plant';

const DAY_MS = 86_400_000;
const END = Date.parse('2026-04-20T00:00:00Z');
const RECORD_DAYS = 330;
const STEP_MS = 4 * 3_600_000;
const UNITS = 5;
const SEED = 62;
/** Results say when they were worked out: at this instant, whoever does it. */
export const NOW = '2026-04-20T06:00:00Z';

/** Fills a database with units that have cycles to tell each other of, all due for analysis. */
export async function makeDueFleet(databaseUrl: string, units = UNITS): Promise<void> {
  const context = await openContext(databaseUrl);
  await fillDueFleet(context, units);
  await closeContext(context);
}

/** The same in a database that is open and stays so. */
export async function fillDueFleet(context: Context, units: number): Promise<void> {
  const { fleet, plans } = makeHeldOutFleet(SEED, units);
  await registerFleet(context, fleet);
  for (const plan of plans) {
    const span = { start: END - RECORD_DAYS * DAY_MS, end: END, stepMs: STEP_MS, seed: SEED };
    const { readings, truth } = generateReadings(plan, span);
    await importColumns(context, plan.unit.tag, readings);
    for (const { at } of truth.cleanings) await recordCleaning(context, { tag: plan.unit.tag, at });
  }
}

export type Analysed = { results: number; days: number; due: number; digest: string };

/** Everything an analysis writes, to the last digit, as one digest, and what it has left due. */
export function analysedContent(path: string): Analysed {
  const { unit_result, daily_block, unit_statement, unit_due } = inDatabase(path, contentOf);
  const text = JSON.stringify([unit_result, daily_block, unit_statement]);
  return {
    results: unit_result!.length,
    days: daily_block!.reduce((sum, block) => sum + daysIn(block.figures as Buffer), 0),
    due: unit_due!.length,
    digest: createHash('sha256').update(text).digest('hex'),
  };
}

/** A folder of its own with a copy of a closed database in it. */
export function freshCopy(path: string): { folder: string; path: string; url: string; remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'cleanby-killed-'));
  const copy = join(folder, 'plant.db');
  cpSync(path, copy);
  return {
    folder,
    path: copy,
    url: `file:${copy}`,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
