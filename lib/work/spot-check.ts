import { type Exchanger, FLOW_SENSORS, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import { basisAt } from '@/lib/core/fouling/evaluate-over';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecords } from '@/lib/report/records';
import { type HandInstruments, readEntries } from '@/lib/report/spot-check/read-entries';
import { isBlank, readSpotCheckAddress } from '@/lib/report/spot-check/spot-check-entries';
import type { CheckedReading, SpotCheckRecords } from '@/lib/report/spot-check/spot-check-records';
import type { SearchParams } from '@/lib/report/unit/unit-address';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Context } from './context';
import { readUnit } from './read-unit';
import { readingColumns } from './reading-columns';

/** How far back from a unit's last reading an accepted one is looked for, to start a check from [ms] (own choice). */
const LOOK_BACK_MS = 14 * DAY_MS;

/** Nothing typed by hand stands still or repeats: no sensor of a single reading is nominal. */
const NO_NOMINAL_SENSOR = 0;

/**
 * A spot check: one set of typed readings against a unit, evaluated by what held at its time. Nothing is stored; null for an
 * unknown tag. Checks that need neighbours (frozen sensors, spikes) cannot find anything in one reading.
 */
export async function spotCheck(
  context: Context,
  tag: string,
  { params, system }: { params: SearchParams; system: UnitSystem },
): Promise<SpotCheckRecords | null> {
  const unit = await readUnit(context, tag, { from: 0, to: -1 });
  if (unit === null) return null;
  const { record, trend, now } = unit;
  const clock = context.now();
  const entries = readSpotCheckAddress(params, record.unit, system);
  const read = readEntries(entries, { timeZone: record.site.timeZone, now: clock });
  const isReadable = !isBlank(entries) && read.faults.length === 0;
  return {
    record,
    trend,
    now,
    clock,
    entries,
    faults: read.faults,
    checked: isReadable ? checkReading(unit, { ...read, readings: readingColumns([read.reading]) }) : null,
    last: await lastAccepted(context, tag, trend?.lastReading ?? null),
  };
}

type Typed = { at: number; instruments: HandInstruments; readings: ReadingColumns };

function checkReading(unit: UnitRecords, { at, instruments, readings }: Typed): CheckedReading {
  const { record, versions, references } = unit;
  const basis = basisAt(unit.bases, at);
  const exchanger = withInstruments(basis.exchanger, instruments);
  const { settings, cleanFactors, unitVersion } = basis;
  const datasheet = versions.find(({ number }) => number === unitVersion)?.unit ?? record.unit;
  return {
    record: { ...record, unit: datasheet, exchanger, settings },
    bases: [{ ...basis, exchanger }],
    versions,
    references,
    readings,
    evaluation: evaluateReadings({
      exchanger,
      settings,
      readings,
      cleanFactors,
      nominal: NO_NOMINAL_SENSOR,
    }),
    at,
    instruments,
  };
}

/** The unit with the hand instruments in place of its own sensors. */
function withInstruments(exchanger: Exchanger, { temperature, flow }: HandInstruments): Exchanger {
  const sensors = { ...exchanger.sensors };
  if (temperature !== null)
    for (const name of TEMPERATURE_SENSORS)
      sensors[name] = { ...sensors[name], absolute: temperature, relative: 0 };
  if (flow !== null)
    for (const name of FLOW_SENSORS) sensors[name] = { ...sensors[name], absolute: 0, relative: flow };
  return { ...exchanger, sensors };
}

async function lastAccepted(
  context: Context,
  tag: string,
  lastReading: number | null,
): Promise<ReadingColumns | null> {
  if (lastReading === null) return null;
  const recent = await readUnit(context, tag, { from: lastReading - LOOK_BACK_MS, to: lastReading });
  if (recent === null) return null;
  const row = recent.evaluation.reasons.lastIndexOf(0);
  return row < 0 ? null : sliceReadings(recent.readings, row, row + 1);
}
