import { FLOW_SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import type { Random } from '@/lib/core/stats/random';
import { MS_PER_DAY } from './true-cycles';
import type { FaultPlan } from './unit-plan';

const DAYS_PER_MONTH = 30;

/** Bits of the truth's `planted` column: what was done to a reading. */
export const PLANTED_BIT = { dead: 1, drift: 2, swapped: 4, spikes: 8 } as const;

type Span = { first: number; last: number };

/** Spoils measured readings as planned, in place, and returns what was done to each. `end` [ms] is the end of the record. */
export function plantFaults(
  readings: ReadingColumns,
  faults: FaultPlan[],
  { end, random }: { end: number; random: Random },
): Uint8Array {
  const planted = new Uint8Array(readings.time.length);
  for (const fault of faults) {
    const span = spanOf(readings.time, fault, end);
    if (span === null) continue;
    if (fault.kind === 'dead') die(readings[fault.sensor], span, fault.as);
    else if (fault.kind === 'drift') drift(readings, span, fault);
    else if (fault.kind === 'swapped') swap(readings, span, fault.sensors);
    else if (fault.kind === 'spikes') spike(readings, span, { fault, random, planted });
    if (fault.kind === 'dead' || fault.kind === 'drift' || fault.kind === 'swapped') {
      for (let i = span.first; i <= span.last; i++) planted[i]! |= PLANTED_BIT[fault.kind];
    }
  }
  return planted;
}

/** True where a fault of a kind that leaves no reading at all ("gap") covers the instant. */
export function isInGap(faults: FaultPlan[], instant: number, end: number): boolean {
  return faults.some(
    (fault) =>
      fault.kind === 'gap' &&
      instant >= end - fault.fromDaysAgo * MS_PER_DAY &&
      instant < end - fault.toDaysAgo * MS_PER_DAY,
  );
}

function spanOf(time: Float64Array, fault: FaultPlan, end: number): Span | null {
  const from = end - fault.fromDaysAgo * MS_PER_DAY;
  const to = end - fault.toDaysAgo * MS_PER_DAY;
  const first = time.findIndex((instant) => instant >= from);
  const last = time.findLastIndex((instant) => instant <= to);
  return first < 0 || last < first ? null : { first, last };
}

function die(column: Float64Array, { first, last }: Span, as: 'missing' | 'frozen'): void {
  column.fill(as === 'missing' ? Number.NaN : column[first]!, first, last + 1);
}

function isFlow(sensor: Sensor): boolean {
  return (FLOW_SENSORS as readonly string[]).includes(sensor);
}

function drift(
  readings: ReadingColumns,
  { first, last }: Span,
  fault: { sensor: Sensor; perDay: number },
): void {
  const column = readings[fault.sensor];
  for (let i = first; i <= last; i++) {
    const grown = (fault.perDay * (readings.time[i]! - readings.time[first]!)) / MS_PER_DAY;
    column[i] = isFlow(fault.sensor) ? column[i]! * (1 + grown) : column[i]! + grown;
  }
}

function swap(readings: ReadingColumns, { first, last }: Span, [one, other]: [Sensor, Sensor]): void {
  const kept = readings[one].slice(first, last + 1);
  readings[one].set(readings[other].subarray(first, last + 1), first);
  readings[other].set(kept, first);
}

function spike(
  readings: ReadingColumns,
  { first, last }: Span,
  how: { fault: { sensor: Sensor; perMonth: number; size: number }; random: Random; planted: Uint8Array },
): void {
  const { sensor, perMonth, size } = how.fault;
  const column = readings[sensor];
  for (let i = first; i <= last; i++) {
    const days = i > 0 ? (readings.time[i]! - readings.time[i - 1]!) / MS_PER_DAY : 0;
    if (how.random.uniform() >= (perMonth * days) / DAYS_PER_MONTH) continue;
    const sign = how.random.uniform() < 0.5 ? -1 : 1;
    column[i] = isFlow(sensor) ? Math.max(0, column[i]! * (1 + sign * size)) : column[i]! + sign * size;
    how.planted[i]! |= PLANTED_BIT.spikes;
  }
}
