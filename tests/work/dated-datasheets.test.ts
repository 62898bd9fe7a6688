import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DAILY_FLOAT_COLUMNS, type DailyColumns } from '@/lib/core/series/daily-columns';
import { findResult } from '@/lib/store/entities/results';
import { listVersions, unitIds } from '@/lib/store/entities/units';
import { localDay } from '@/lib/time/local-clock';
import { analyse } from '@/lib/work/analyse';
import { readUnit } from '@/lib/work/read-unit';
import { recordCleaning } from '@/lib/work/record-cleaning';
import {
  FEW_PLATES,
  installed,
  MORE_PLATES,
  registerAtPort,
  swingingReadings,
  unitWithReadings,
} from '../support/clean-records';
import { DAY_MS, EPOCH, HOUR_MS } from '../support/forward-readings';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const DAYS = 40;
const CHANGED_DAY = 20;
const CHANGED_AT = EPOCH + CHANGED_DAY * DAY_MS;
/** True fouling of both halves of the record, without a step [m²·K/W per hour]. */
const RATE = 1.5e-6 / 24;
const { tag } = FEW_PLATES;
const changed = { ...MORE_PLATES, validFrom: new Date(CHANGED_AT).toISOString() };

const [few, more] = [installed(FEW_PLATES), installed(MORE_PLATES)];
const readings = swingingReadings(DAYS * 24, {
  unitAt: (hour) => (hour < CHANGED_DAY * 24 ? few : more),
  foulingAt: (hour) => RATE * hour,
  swing: 0.1,
});

let database: TemporaryDatabase;
let unitId: number;
beforeEach(async () => {
  database = await temporaryDatabase();
  await unitWithReadings(database.context, FEW_PLATES, readings);
  await recordCleaning(database.context, { tag, at: EPOCH });
  await analyse(database.context);
  unitId = (await unitIds(database.context.store.entities)).get(tag)!;
});
afterEach(() => database.remove());

const dailyNow = () => database.context.store.series.readDaily(unitId);
const rowsBefore = (daily: DailyColumns, day: number) =>
  DAILY_FLOAT_COLUMNS.map((name) => daily[name].filter((_, row) => daily.day[row]! < day));

describe('plates added half-way', () => {
  it('leave the history before the change as it was to the last bit, and make no step', async () => {
    const before = await dailyNow();
    await registerAtPort(database.context, changed);
    await analyse(database.context);
    const after = await dailyNow();
    const day = localDay(CHANGED_AT, 'Europe/Lisbon');
    expect(rowsBefore(after, day)).toEqual(rowsBefore(before, day));
    expect(before.foulingResistance).not.toEqual(after.foulingResistance);
    // Every day's median is the true fouling around noon of that day, in both halves.
    after.foulingResistance.forEach((value, row) => {
      const truth = RATE * 24 * (row + 0.5);
      expect(Math.abs(value - truth)).toBeLessThan(1.5e-6);
    });
    const known = await findResult(database.context.store.entities, unitId);
    expect(known!.basis.map(({ from, unitVersion }) => [from, unitVersion])).toEqual([
      [0, 1],
      [CHANGED_AT, 2],
    ]);
    // The cycle goes on: no cleaning was recorded at the change.
    expect(known!.trend.cycles).toHaveLength(1);
  });

  it('would step without the date: the area of the old plates makes the new ones look cleaner than new', async () => {
    const daily = await dailyNow();
    expect(daily.foulingResistance[CHANGED_DAY + 1]!).toBeLessThan(0);
  });

  it('are what the page evaluates by, each reading by the datasheet of its time', async () => {
    await registerAtPort(database.context, changed);
    await analyse(database.context);
    const around = { from: CHANGED_AT - 2 * DAY_MS, to: CHANGED_AT + 2 * DAY_MS };
    const unit = (await readUnit(database.context, tag, around))!;
    expect(unit.bases.map(({ exchanger }) => exchanger.area)).toEqual([49.5, 59.5]);
    unit.evaluation.foulingResistance.forEach((value, i) => {
      const hour = (unit.evaluation.time[i]! - EPOCH) / HOUR_MS;
      // Seven digits of the tabulated water and of the solver behind the readings.
      expect(Math.abs(value - RATE * hour)).toBeLessThan(2e-9);
    });
  });
});

describe('a datasheet that is corrected', () => {
  it('without a date changes all history', async () => {
    const before = await dailyNow();
    await registerAtPort(database.context, MORE_PLATES);
    await analyse(database.context);
    const after = await dailyNow();
    after.foulingResistance.forEach((value, row) => {
      expect(value).not.toBe(before.foulingResistance[row]);
    });
  });
});

describe('the versions of a datasheet', () => {
  it('are kept, the first one first', async () => {
    await registerAtPort(database.context, changed);
    const versions = await listVersions(database.context.store.entities, unitId);
    expect(versions.map(({ number, unit }) => [number, unit.plates?.count])).toEqual([
      [1, 101],
      [2, 121],
    ]);
  });
});
