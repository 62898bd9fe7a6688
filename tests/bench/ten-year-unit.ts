import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DAY_MS } from '@/lib/time/calendar-day';
import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { FEW_PLATES, installed, swingingReadings, unitWithReadings } from '../support/clean-records';
import { EPOCH, HOUR_MS } from '../support/forward-readings';

const DAYS_A_YEAR = 365;
const HOURS_A_DAY = 24;
const YEARS = 10;
/** It is cleaned every nine months, and grows so fast [m²·K/W per day] that its limit is near by then. */
const CYCLE_DAYS = 270;
const GROWTH = 6e-7;
/** Every so many readings one has a spike, and every so many days the sensors are silent for one. */
const SPIKE_EVERY = 431;
const SILENT_EVERY = 97;

export type TenYearUnit = { url: string; tag: string; readings: number; lastDay: number; remove(): void };

/** A database with one unit and ten years of hourly readings, analysed. */
export async function tenYearUnit(scale: number): Promise<TenYearUnit> {
  const folder = mkdtempSync(join(tmpdir(), 'cleanby-bench-unit-'));
  const url = `file:${join(folder, 'cleanby.db')}`;
  const days = Math.round(YEARS * DAYS_A_YEAR * scale);
  const unit = installed(FEW_PLATES);
  const readings = swingingReadings(days * HOURS_A_DAY, {
    unitAt: () => unit,
    foulingAt: (hour) => GROWTH * ((hour / HOURS_A_DAY) % CYCLE_DAYS),
    noise: 0.01,
  });
  readings.time.forEach((_, i) => {
    if (i % SPIKE_EVERY === 0) readings.hotOut[i]! += 15;
    if (Math.floor(i / HOURS_A_DAY) % SILENT_EVERY === SILENT_EVERY - 1) readings.hotIn[i] = Number.NaN;
  });
  const context = await openContext(url);
  try {
    context.now = () => EPOCH + days * DAY_MS;
    await unitWithReadings(context, FEW_PLATES, readings);
    for (let day = CYCLE_DAYS; day < days; day += CYCLE_DAYS)
      await recordCleaning(context, { tag: FEW_PLATES.tag, at: EPOCH + day * DAY_MS - HOUR_MS / 2 });
    await analyse(context);
  } finally {
    await closeContext(context);
  }
  return {
    url,
    tag: FEW_PLATES.tag,
    readings: readings.time.length,
    lastDay: EPOCH / DAY_MS + days - 1,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
