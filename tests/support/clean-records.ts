import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { makeRandom } from '@/lib/core/stats/random';
import type { Context } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { readingsOf, solveForward } from './forward-readings';
import { PLATE_UNIT, PORT } from './unit-records';

/** The plate unit of the other tests with 101 plates, and with 20 more. */
export const FEW_PLATES: Unit = {
  ...PLATE_UNIT,
  plates: { count: 101, areaEach: { value: 0.5, unit: 'm2' } },
};
export const MORE_PLATES: Unit = {
  ...PLATE_UNIT,
  plates: { count: 121, areaEach: { value: 0.5, unit: 'm2' } },
};

/** A unit whose clean resistances are the given multiples of those on its datasheet: what really stands there. */
export function installed(
  unit: Unit,
  factors: { hot: number; wall: number; cold: number } = { hot: 1, wall: 1, cold: 1 },
): Exchanger {
  const exchanger = toExchanger(unit);
  const { films, design } = exchanger;
  const coldShare = 1 - films.hotShare - films.wallShare;
  const whole = factors.hot * films.hotShare + factors.wall * films.wallShare + factors.cold * coldShare;
  return {
    ...exchanger,
    design: { ...design, cleanU: design.cleanU! / whole },
    films: {
      ...films,
      hotShare: (factors.hot * films.hotShare) / whole,
      wallShare: (factors.wall * films.wallShare) / whole,
    },
  };
}

/** Hourly readings whose two flows vary on their own by `swing`; equipment and fouling [m²·K/W] as given by hour. */
export function swingingReadings(
  hours: number,
  {
    unitAt,
    foulingAt,
    swing = 0.3,
    load = 1,
    noise = 0,
  }: {
    unitAt: (hour: number) => Exchanger;
    foulingAt: (hour: number) => number;
    swing?: number;
    /** Mean flows as a share of the design flows [-]. */
    load?: number;
    /** Random error of the flow readings, as a share [-]. */
    noise?: number;
  },
) {
  const random = makeRandom(7);
  const states = Array.from({ length: hours }, (_, hour) => {
    const unit = unitAt(hour);
    const { design } = unit;
    return solveForward(unit, {
      hotIn: design.hotIn + Math.sin(hour / 5),
      coldIn: design.coldIn + Math.sin(hour / 9),
      hotFlow: design.hotFlow * load * (1 + swing * Math.sin(hour / 7)),
      coldFlow: design.coldFlow * load * (1 + swing * Math.sin(hour / 11)),
      fouling: foulingAt(hour),
    });
  });
  const readings = readingsOf(states);
  for (const flow of ['hotFlow', 'coldFlow'] as const) {
    readings[flow].forEach((value, i) => {
      readings[flow][i] = value * (1 + noise * random.normal());
    });
  }
  return readings;
}

/** Registers the unit at the port. */
export async function registerAtPort(context: Context, unit: Unit): Promise<void> {
  const { name, timeZone, currency } = PORT;
  await registerFleet(context, { site: { name, timeZone, currency }, units: [unit] });
}

/** Registers a unit and imports its readings. */
export async function unitWithReadings(
  context: Context,
  unit: Unit,
  readings: ReturnType<typeof swingingReadings>,
): Promise<void> {
  await registerAtPort(context, unit);
  await importColumns(context, unit.tag, readings);
}
