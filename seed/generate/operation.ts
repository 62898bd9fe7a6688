import type { Sensor } from '@/lib/core/exchange/exchanger';
import type { Random } from '@/lib/core/stats/random';
import { type DatedModel, modelAt } from './dated-models';
import { MS_PER_DAY, shiftStart, type TrueCleaning } from './true-cycles';
import type { FlowPlan, OperationPlan, TemperaturePlan, UnitPlan } from './unit-plan';
import { makeWander } from './wander';

const MS_PER_HOUR = 3_600_000;
const MS_PER_YEAR = 365.25 * MS_PER_DAY;
/** Sea and air are warmest in the northern temperate zone in mid-August: days after 1 January 1970, as in any year. */
const WARMEST_DAY = 225;
/** Hour of the day at which a daily swing crosses its mean upwards. */
const DAILY_RISE = 9;
/** Weather and load keep their departure from the mean for about half a day. */
const CORRELATION_MS = 12 * MS_PER_HOUR;
/** A running unit never goes below this share of design flow: minimum-flow control. */
const LEAST_FLOW_SHARE = 0.4;
export const MOST_FLOW_SHARE = 1.4;
/** 1 January 1970 was a Thursday: days to add so that Saturday is 5 and Sunday 6, Monday 0. */
const WEEKDAY_OF_EPOCH = 3;

/** True inlet temperatures [°C] and mass flows [kg/s] per reading; a unit that stands still has `isRunning` 0. */
export type Operation = {
  isRunning: Uint8Array;
  hotIn: Float64Array;
  coldIn: Float64Array;
  hotFlow: Float64Array;
  coldFlow: Float64Array;
};

export type OperationInput = {
  plan: UnitPlan;
  models: DatedModel[];
  cleanings: TrueCleaning[];
  /** Instants [ms], evenly spaced. */
  time: Float64Array;
  end: number;
};

/** How a unit was run: inlet conditions and flows through seasons, days and weeks, and when it stood still. */
export function operate(input: OperationInput, random: Random): Operation {
  const { plan, models, time } = input;
  const { hotIn, coldIn, hotFlow, coldFlow } = plan.operation;
  const stepMs = time.length > 1 ? time[1]! - time[0]! : MS_PER_HOUR;
  const calendar = { time, utcOffset: plan.utcOffsetHours * MS_PER_HOUR };
  const design = (sensor: Inlet) => (instant: number) => modelAt(models, instant).exchanger.design[sensor];
  const wander = () => makeWander(random, stepMs, CORRELATION_MS);
  return {
    isRunning: running(input),
    hotIn: temperatures(hotIn, design('hotIn'), { ...calendar, wander: wander() }),
    coldIn: temperatures(coldIn, design('coldIn'), { ...calendar, wander: wander() }),
    hotFlow: flows(hotFlow, design('hotFlow'), { ...calendar, wander: wander() }),
    coldFlow: flows(coldFlow, design('coldFlow'), { ...calendar, wander: wander() }),
  };
}

type Inlet = keyof OperationPlan & Sensor;
/** A figure of the datasheet that holds at an instant. */
type Design = (instant: number) => number;
type Calendar = { time: Float64Array; utcOffset: number; wander: () => number };

function temperatures(plan: TemperaturePlan, design: Design, calendar: Calendar): Float64Array {
  return calendar.time.map((instant) => {
    const local = instant + calendar.utcOffset;
    const swing = plan.season * seasonOf(local) + plan.day * dayOf(local) + plan.noise * calendar.wander();
    return design(instant) + plan.shift + swing;
  });
}

function flows(plan: FlowPlan, design: Design, calendar: Calendar): Float64Array {
  return calendar.time.map((instant) => {
    const local = instant + calendar.utcOffset;
    const weekend = isWeekend(local) ? plan.weekend : 0;
    const swing = plan.season * seasonOf(local) + plan.day * dayOf(local) + plan.noise * calendar.wander();
    return (
      design(instant) * Math.min(MOST_FLOW_SHARE, Math.max(LEAST_FLOW_SHARE, plan.share + weekend + swing))
    );
  });
}

/** 1 in mid-August, −1 in mid-February. */
function seasonOf(local: number): number {
  return Math.cos((2 * Math.PI * (local - WARMEST_DAY * MS_PER_DAY)) / MS_PER_YEAR);
}

function dayOf(local: number): number {
  return Math.sin((2 * Math.PI * (local / MS_PER_HOUR - DAILY_RISE)) / 24);
}

function isWeekend(local: number): boolean {
  return (Math.floor(local / MS_PER_DAY) + WEEKDAY_OF_EPOCH) % 7 >= 5;
}

function running({ plan, cleanings, time, end }: OperationInput): Uint8Array {
  const stops = [
    ...cleanings.map(({ at, durationMs }) => ({ from: at, to: at + durationMs })),
    ...plan.earlier.map(({ untilDaysAgo, changeHours }) => {
      const from = shiftStart(end - untilDaysAgo * MS_PER_DAY, plan.utcOffsetHours);
      return { from, to: from + changeHours * MS_PER_HOUR };
    }),
    ...plan.faults
      .filter(({ kind }) => kind === 'out-of-service')
      .map((fault) => ({
        from: end - fault.fromDaysAgo * MS_PER_DAY,
        to: end - fault.toDaysAgo * MS_PER_DAY,
      })),
  ];
  const isRunning = new Uint8Array(time.length);
  for (let i = 0; i < time.length; i++) {
    const instant = time[i]!;
    const isStopped = stops.some(({ from, to }) => instant >= from && instant < to);
    isRunning[i] = !isStopped && isScheduled(plan, instant) ? 1 : 0;
  }
  return isRunning;
}

function isScheduled({ operation, utcOffsetHours }: UnitPlan, instant: number): boolean {
  const local = instant + utcOffsetHours * MS_PER_HOUR;
  if (!operation.runsAtWeekends && isWeekend(local)) return false;
  if (operation.batchHours === null) return true;
  const hour = (local / MS_PER_HOUR) % 24;
  return operation.batchHours.some(([from, to]) => hour >= from && hour < to);
}
