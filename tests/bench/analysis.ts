import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { analyse } from '@/lib/work/analyse';
import { type KeptComputer, keptComputer, usualThreads } from '@/lib/work/analysis/threads';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { type ManyUnits, registerMany } from './many-units';
import {
  type BenchOptions,
  type BenchPiece,
  type BenchRow,
  growthExponent,
  median,
  residentMemory,
  timed,
} from './measure';

const START = Date.parse('2022-01-01T00:00:00Z');
const READINGS_OF_A_DAY = 24;
const YEAR_DAYS = 365;
/**
 * Days taken before those that count: a worker that runs on has compiled its code long since. Some functions are called once a
 * unit, and are compiled after some thousand calls in each thread.
 */
const WARM_DAYS = 10;
const FLEETS = [125, 250, 500, 1000];
/** Years of history of the smallest fleet. */
const HISTORIES = [1, 2, 4];
/** A day's new readings of the largest fleet are to be analysed within so many seconds on two cores. */
const MOST_FOR_A_DAY = 2;
/** All cores of two are to need no more than this share of the time of one [-]. */
const MOST_OF_ONE_THREAD = 0.65;
/** Growth is linear or better, and what remains is chance. */
const MOST_EXPONENT = 1.1;

/** What a fleet needed [s]. */
type Measured = { units: number; days: number; whole: number; day: number };

/** `npm run bench analysis` */
export const analysis: BenchPiece = {
  name: 'analysis',
  about: 'analysis of whole records and of a new day, by all cores against one thread, and how it grows',
  async run(options) {
    const sizes = FLEETS.map((size) => Math.max(8, Math.round(size * options.scale)));
    const fleets: Measured[] = [];
    let shared: BenchRow[] = [];
    for (const units of sizes) {
      const isLast = units === sizes.at(-1);
      fleets.push(
        await withFleet({ units, days: YEAR_DAYS }, options, async (fleet) => {
          const measured = await measure(fleet, options);
          if (units === sizes[0]) shared = await againstOneThread(fleet, options);
          if (isLast) options.say(`resident memory ${residentMemory().toFixed(0)} MiB`);
          return measured;
        }),
      );
    }
    const histories = [fleets[0]!];
    for (const years of HISTORIES.slice(1)) {
      const asked = { units: sizes[0]!, days: years * YEAR_DAYS };
      histories.push(await withFleet(asked, options, (fleet) => measure(fleet, options)));
    }
    return [
      ...fleets.flatMap((fleet) => rowsOf(fleet, fleet === fleets.at(-1))),
      ...shared,
      ...exponents('units', fleets, ({ units }) => units),
      ...exponents('length of the history', histories, ({ days }) => days),
    ];
  },
};

/** A fleet and who works it out: threads that stay, as those of the worker beside `cleanby serve`. */
type Fleet = {
  context: Context;
  url: string;
  many: ManyUnits;
  kept: KeptComputer;
  units: number;
  days: number;
};

async function withFleet<T>(
  { units, days }: { units: number; days: number },
  { say, runs }: BenchOptions,
  work: (fleet: Fleet) => Promise<T>,
): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'cleanby-bench-'));
  const url = `file:${join(folder, 'plant.db')}`;
  const context = await openContext(url);
  const kept = keptComputer(context.store.series, { databaseUrl: url, threads: usualThreads() });
  try {
    const many = await registerMany(context, { units, days: days + WARM_DAYS + runs, start: START });
    await many.take(0, days);
    say(`${units} units with ${days} days of hourly readings each are in`);
    return await work({ context, url, many, kept, units, days });
  } finally {
    await kept.close();
    await closeContext(context);
    await rm(folder, { recursive: true, force: true });
  }
}

async function measure(fleet: Fleet, { runs, say }: BenchOptions): Promise<Measured> {
  const { units, days } = fleet;
  const whole = await seconds(() => bringUpToDate(fleet, { all: true }));
  say(`${units} units, ${days} days: all of it in ${whole.toFixed(1)} s`);
  const each: number[] = [];
  for (let run = 0; run < WARM_DAYS + runs; run++) {
    for (const file of fleet.many.files(days + run)) await importReadings(fleet.context, file);
    const time = await seconds(() => bringUpToDate(fleet, {}));
    if (run >= WARM_DAYS) each.push(time);
  }
  say(`${units} units, ${days} days: a new day in ${median(each).toFixed(2)} s`);
  return { units, days, whole, day: median(each) };
}

async function againstOneThread(fleet: Fleet, { runs }: BenchOptions): Promise<BenchRow[]> {
  const { context, url } = fleet;
  const single = keptComputer(context.store.series, { databaseUrl: url, threads: 1 });
  const times = { all: [] as number[], one: [] as number[] };
  // A run before those that count: the code is compiled while it runs first, in each thread for itself.
  for (let run = -1; run < runs; run++) {
    const all = await seconds(() => bringUpToDate(fleet, { all: true }));
    const one = await seconds(() => bringUpToDate({ ...fleet, kept: single }, { all: true }));
    if (run < 0) continue;
    times.all.push(all);
    times.one.push(one);
  }
  const [ours, peer] = [median(times.all), median(times.one)];
  const row = rowOf(`all of ${fleet.units} units anew, ${usualThreads()} threads`, ours, 's');
  const limit = usualThreads() > 1 ? { most: MOST_OF_ONE_THREAD } : null;
  return [{ ...row, peer, peerName: 'the same on one thread', ratio: ours / peer, limit }];
}

async function bringUpToDate({ context, kept }: Fleet, { all = false }: { all?: boolean }): Promise<void> {
  await analyse(context, { all, computer: kept.computer });
}

async function seconds(act: () => Promise<unknown>): Promise<number> {
  return (await timed(act)) / 1000;
}

function rowOf(what: string, ours: number, unit: string, limit: BenchRow['limit'] = null): BenchRow {
  return { what, ours, unit, limit, peer: null, peerName: null, ratio: null, memory: residentMemory() };
}

function rowsOf({ units, days, whole, day }: Measured, isLargest: boolean): BenchRow[] {
  const whose = `${units} units, ${days} days`;
  const limit = isLargest ? { most: MOST_FOR_A_DAY } : null;
  return [
    rowOf(`${whose}: whole records`, units / whole, 'units/s'),
    rowOf(`${whose}: whole records`, (units * days * READINGS_OF_A_DAY) / whole, 'readings/s'),
    rowOf(`${whose}: a new day`, day, 's', limit),
  ];
}

function exponents(by: string, measured: readonly Measured[], size: (one: Measured) => number): BenchRow[] {
  const exponent = (time: (one: Measured) => number) =>
    growthExponent(measured.map((one) => [size(one), time(one)] as const));
  const limit = { most: MOST_EXPONENT };
  return [
    rowOf(
      `growth of whole records with the ${by}`,
      exponent(({ whole }) => whole),
      'exponent',
      limit,
    ),
    rowOf(
      `growth of a new day with the ${by}`,
      exponent(({ day }) => day),
      'exponent',
      limit,
    ),
  ];
}
