import { LOCAL_ACTOR } from '@/lib/contract/actor';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeReadingChunk, type ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { Context } from '@/lib/work/context';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { csvLines, type LineMaker } from './csv-lines';

/** Units whose records are made; all others are copies of them under other tags. */
const MODELS = 40;
const UNITS_OF_A_SITE = 250;
const SEED = 11;
const HOUR_MS = 3_600_000;
const HOURS_OF_A_DAY = 24;
/** Rows of the database in one statement. */
const AT_ONCE = 500;

export type ManyUnits = {
  tags: string[];
  /** Takes the readings of some days, past the reading of files. */
  take(fromDay: number, toDay: number): Promise<void>;
  /** The readings of one day of every unit as files: one for each way in which flows are measured. */
  files(day: number): { name: string; source: AsyncIterable<Uint8Array> }[];
};

/** Registers units of held-out kinds in bulk. @param days of readings that can be taken, from `start` [ms] on */
export async function registerMany(
  context: Context,
  { units, days, start }: { units: number; days: number; start: number },
): Promise<ManyUnits> {
  const { fleet, plans } = makeHeldOutFleet(SEED, Math.min(MODELS, units));
  const hours = days * HOURS_OF_A_DAY;
  const records = plans.map((plan, index) => fullRecord(plan, { start, hours, seed: index + 1 }));
  const tags = Array.from({ length: units }, (_, number) => `HX-${String(number + 1).padStart(6, '0')}`);
  await registerInBulk(context, tags, (number) => fleet.units[number % fleet.units.length]!);
  const { entities, series } = context.store;
  const rows = await entities.unit.findMany({ select: { id: true, tag: true } });
  const unitIds = new Map(rows.map(({ id, tag }) => [tag, id]));
  const recordOf = (number: number) => records[number % records.length]!;
  return {
    tags,
    take: async (fromDay, toDay) => {
      const chunks = chunksOf(tags, recordOf, { from: fromDay * HOURS_OF_A_DAY, to: toDay * HOURS_OF_A_DAY });
      const change = { actor: LOCAL_ACTOR, at: context.now(), source: `days ${fromDay} to ${toDay}` };
      await series.importBatch({ ...change, chunks, unitIds, check: false });
    },
    files: (day) => filesOf(tags, recordOf, { from: day * HOURS_OF_A_DAY, to: (day + 1) * HOURS_OF_A_DAY }),
  };
}

/** A record without gaps: so many readings, hour by hour. */
function fullRecord(
  plan: Parameters<typeof generateReadings>[0],
  { start, hours, seed }: { start: number; hours: number; seed: number },
): ReadingColumns {
  const { readings } = generateReadings(plan, {
    start,
    end: start + 2 * hours * HOUR_MS,
    stepMs: HOUR_MS,
    seed,
  });
  if (readings.time.length < hours) throw new Error('the record has more gaps than readings');
  readings.time.forEach((_, row) => {
    readings.time[row] = start + row * HOUR_MS;
  });
  return readings;
}

async function registerInBulk(
  { store: { entities }, now }: Context,
  tags: readonly string[],
  unitOf: (number: number) => object,
): Promise<void> {
  const at = new Date(now());
  for (let from = 0; from < tags.length; from += UNITS_OF_A_SITE) {
    const name = `Site ${from / UNITS_OF_A_SITE + 1}`;
    const site = await entities.site.create({ data: { name, timeZone: 'Etc/UTC', currency: 'EUR' } });
    const own = tags.slice(from, from + UNITS_OF_A_SITE);
    await entities.unit.createMany({ data: own.map((tag) => ({ tag, siteId: site.id })) });
    const made = await entities.unit.findMany({ where: { siteId: site.id } });
    await entities.unitVersion.createMany({
      data: made.map(({ id, tag }) => ({
        unitId: id,
        number: 1,
        document: JSON.stringify({ ...unitOf(tags.indexOf(tag, from)), tag }),
        createdAt: at,
      })),
    });
  }
}

type RecordOf = (number: number) => ReadingColumns;
type Rows = { from: number; to: number };

/** Chunks in the order of a plant's daily file: hour by hour, all units of each. */
async function* chunksOf(
  tags: string[],
  recordOf: RecordOf,
  { from, to }: Rows,
): AsyncGenerator<ReadingChunk> {
  for (let row = from; row < to; row++) {
    for (let first = 0; first < tags.length; first += AT_ONCE * 16) {
      const length = Math.min(AT_ONCE * 16, tags.length - first);
      const chunk = makeReadingChunk(tags, length);
      for (let i = 0; i < length; i++)
        putRow(chunk, i, { unit: first + i, record: recordOf(first + i), row });
      yield Object.assign(chunk, { length, read: length });
    }
  }
}

function putRow(
  chunk: ReadingChunk,
  i: number,
  { unit, record, row }: { unit: number; record: ReadingColumns; row: number },
): void {
  chunk.tag[i] = unit;
  chunk.time[i] = record.time[row]!;
  chunk.flowBasis[i] = record.flowBasis[row]!;
  for (const sensor of SENSORS) chunk[sensor][i] = record[sensor][row]!;
}

function filesOf(tags: string[], recordOf: RecordOf, { from, to }: Rows): ReturnType<ManyUnits['files']> {
  const byHead = new Map<string, { numbers: number[]; lineOf: LineMaker }>();
  tags.forEach((_, number) => {
    const { head, lineOf } = csvLines(recordOf(number).flowBasis[from]!);
    const known = byHead.get(head);
    if (known === undefined) byHead.set(head, { numbers: [number], lineOf });
    else known.numbers.push(number);
  });
  return [...byHead].map(([head, { numbers, lineOf }], index) => ({
    name: `day-${from / HOURS_OF_A_DAY}-${index}.csv`,
    source: bytesOf(function* () {
      yield head;
      for (let row = from; row < to; row++)
        for (const number of numbers) yield lineOf(tags[number]!, recordOf(number), row);
    }),
  }));
}

const PIECE = 1 << 16;

async function* bytesOf(lines: () => Generator<string>): AsyncGenerator<Uint8Array> {
  let piece = '';
  for (const line of lines()) {
    piece += line;
    if (piece.length < PIECE) continue;
    yield Buffer.from(piece);
    piece = '';
  }
  if (piece !== '') yield Buffer.from(piece);
}
