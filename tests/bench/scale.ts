import { analyse } from '@/lib/work/analyse';
import { keptComputer, usualThreads } from '@/lib/work/analysis/threads';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { importReadings } from '@/lib/work/import-readings';
import { type EmbeddedServer, startEmbeddedPostgres } from '@/prisma/embedded-server';
import { registerMany } from './many-units';
import { type BenchOptions, type BenchPiece, type BenchRow, growthExponent, median, timed } from './measure';
import { servePlant } from './served-plant';

const START = Date.parse('2026-01-01T00:00:00Z');
/** Days behind every unit before those that are measured. */
const HISTORY_DAYS = 8;
const READINGS_OF_A_DAY = 24;
const LOOKS = 15;
const SIZES = [1000, 10_000, 100_000];

/** What a fleet of one size needed. */
type Measured = {
  units: number;
  /** [s] */
  import: number;
  analysis: number;
  nextDay: number;
  /** [ms] */
  fleetPage: number;
  unitPage: number;
  /** Bytes of the whole database, for each reading. */
  bytesEach: number;
};

export const scale: BenchPiece = {
  name: 'scale',
  about: 'one Postgres on this machine with 1,000 to 100,000 units (CLEANBY_SCALE_UNITS=1000,10000)',
  async run(options) {
    const sizes = (process.env.CLEANBY_SCALE_UNITS?.split(',').map(Number) ?? SIZES).map((size) =>
      Math.max(40, Math.round(size * options.scale)),
    );
    const measured: Measured[] = [];
    for (const units of sizes) {
      const server = await startEmbeddedPostgres({
        settings: ['shared_buffers=2GB', 'max_wal_size=8GB', 'synchronous_commit=on'],
      });
      try {
        measured.push(await measure(server, units, options));
      } finally {
        await server.stop();
      }
    }
    return [...measured.flatMap(rowsOf), ...exponents(measured)];
  },
};

async function measure(server: EmbeddedServer, units: number, options: BenchOptions): Promise<Measured> {
  const { tags, ...filled } = await fill(server, units, options);
  return { ...filled, ...(await look(server.url, tags)) };
}

type Filled = Omit<Measured, 'fleetPage' | 'unitPage'> & { tags: string[] };

async function fill({ url }: EmbeddedServer, units: number, { say }: BenchOptions): Promise<Filled> {
  const context = await openContext(url);
  // Threads that stay, as those of `cleanby work`.
  const kept = keptComputer(context.store.series, { databaseUrl: url, threads: usualThreads() });
  const analyseAll = () => analyse(context, { computer: kept.computer });
  try {
    const fleet = await registerMany(context, { units, days: HISTORY_DAYS + 2, start: START });
    say(`${units} units are registered`);
    await fleet.take(0, HISTORY_DAYS);
    say(`${units * HISTORY_DAYS * READINGS_OF_A_DAY} readings are in`);
    const importTime = await takeDay(context, fleet.files(HISTORY_DAYS));
    say(`one more day in ${(importTime / 1000).toFixed(1)} s`);
    const analysis = await timed(analyseAll);
    say(`first analysis in ${(analysis / 1000).toFixed(1)} s`);
    await takeDay(context, fleet.files(HISTORY_DAYS + 1));
    const nextDay = await timed(analyseAll);
    say(`analysis of a day in ${(nextDay / 1000).toFixed(1)} s`);
    const [{ bytes }] = await context.store.entities.$queryRaw<[{ bytes: bigint }]>`
      SELECT pg_database_size(current_database()) AS bytes`;
    const readings = units * (HISTORY_DAYS + 2) * READINGS_OF_A_DAY;
    return {
      units,
      import: importTime / 1000,
      analysis: analysis / 1000,
      nextDay: nextDay / 1000,
      tags: fleet.tags,
      bytesEach: Number(bytes) / readings,
    };
  } finally {
    await kept.close();
    await closeContext(context);
  }
}

async function takeDay(
  context: Context,
  files: ReturnType<Awaited<ReturnType<typeof registerMany>>['files']>,
) {
  return timed(async () => {
    for (const file of files) await importReadings(context, file);
  });
}

/** Answers of a warm server, one reader at a time: medians [ms]. */
async function look(url: string, tags: readonly string[]): Promise<{ fleetPage: number; unitPage: number }> {
  const plant = await servePlant(url);
  const ask = async (path: string) => {
    const answer = await fetch(`${plant.address}${path}`, { headers: plant.person });
    await answer.text();
    if (!answer.ok) throw new Error(`${path} answered ${answer.status}`);
  };
  const warm = async (path: (at: number) => string) => {
    await ask(path(0));
    const times: number[] = [];
    for (let at = 1; at <= LOOKS; at++) times.push(await timed(() => ask(path(at))));
    return median(times);
  };
  try {
    const unitOf = (at: number) => tags[Math.floor((at / (LOOKS + 1)) * tags.length)]!;
    return { fleetPage: await warm(() => '/'), unitPage: await warm((at) => `/units/${unitOf(at)}`) };
  } finally {
    await plant.stop();
  }
}

function rowsOf(one: Measured): BenchRow[] {
  const units = `${one.units.toLocaleString('en-GB')} units`;
  const plain = { peer: null, peerName: null, ratio: null, limit: null, memory: null };
  return [
    { ...plain, what: `${units}: import of a day's hourly files`, ours: one.import, unit: 's' },
    { ...plain, what: `${units}: first analysis of nine days`, ours: one.analysis, unit: 's' },
    { ...plain, what: `${units}: analysis after one more day`, ours: one.nextDay, unit: 's' },
    { ...plain, what: `${units}: fleet page, warm`, ours: one.fleetPage, unit: 'ms' },
    { ...plain, what: `${units}: unit page, warm`, ours: one.unitPage, unit: 'ms' },
    { ...plain, what: `${units}: database, all of it, for each reading`, ours: one.bytesEach, unit: 'bytes' },
  ];
}

/** How each time grows with the number of units: 1 is in proportion. */
function exponents(measured: readonly Measured[]): BenchRow[] {
  if (measured.length < 2) return [];
  const kinds = {
    import: 'import of a day',
    analysis: 'first analysis',
    nextDay: 'analysis of a day',
  } as const;
  return (Object.keys(kinds) as (keyof typeof kinds)[]).map((kind) => ({
    what: `${kinds[kind]}: exponent of growth with units`,
    ours: growthExponent(measured.map((one) => [one.units, one[kind]] as const)),
    peer: null,
    peerName: null,
    unit: '–',
    ratio: null,
    limit: { most: 1.1 },
    memory: null,
  }));
}
