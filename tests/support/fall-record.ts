import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { analyse } from '@/lib/work/analyse';
import type { Context } from '@/lib/work/context';
import { FEW_PLATES, installed, swingingReadings, unitWithReadings } from './clean-records';
import { DAY_MS, EPOCH, HOUR_MS } from './forward-readings';

/** Length of the record [days]; the clock of its tests stands at its end. */
export const FALL_RECORD_END = EPOCH + 60 * DAY_MS;
/** Cleaned on the morning of day 30 and nobody wrote it down: no readings for half a day, then clean. */
const STOPPED = EPOCH + 30 * DAY_MS;
export const BACK_IN_SERVICE = STOPPED + 12 * HOUR_MS;
/** The middle between the last reading before the fall and the first after it. */
export const MIDDLE_OF_GAP = (STOPPED - HOUR_MS + BACK_IN_SERVICE) / 2;
/** First day after the fall. */
export const FALL_DAY = '2025-02-05';
/** Fouling grows by this much a day [m²·K/W]: to 0.45 of the allowance of 2e-4 m²·K/W before it falls. */
export const FALL_RATE = 3e-6;

/** The plate unit at the port with a record that falls once, analysed; nobody has recorded a cleaning. */
export async function unitWithFall(context: Context): Promise<void> {
  context.now = () => FALL_RECORD_END;
  await unitWithReadings(context, FEW_PLATES, fallReadings());
  await analyse(context);
}

let made: ReadingColumns | null = null;
/** Made once for all tests of a file. */
function fallReadings(): ReadingColumns {
  const unit = installed(FEW_PLATES);
  made ??= without(
    swingingReadings((FALL_RECORD_END - EPOCH) / HOUR_MS, {
      unitAt: () => unit,
      foulingAt: (hour) => (FALL_RATE / 24) * (hour - cleanHour(EPOCH + hour * HOUR_MS)),
      swing: 0.03,
      noise: 0.004,
    }),
    (at) => at >= STOPPED && at < BACK_IN_SERVICE,
  );
  return made;
}

/** Hour of the record at which the unit was last clean. */
function cleanHour(at: number): number {
  return at < BACK_IN_SERVICE ? 0 : (BACK_IN_SERVICE - EPOCH) / HOUR_MS;
}

function without(columns: ReadingColumns, isLeftOut: (at: number) => boolean): ReadingColumns {
  const rows = [...columns.time.keys()].filter((i) => !isLeftOut(columns.time[i]!));
  const part = makeReadingColumns(rows.length);
  rows.forEach((row, i) => {
    part.time[i] = columns.time[row]!;
    for (const sensor of SENSORS) part[sensor][i] = columns[sensor][row]!;
  });
  return part;
}
