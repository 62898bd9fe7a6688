import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { csvLines } from './csv-lines';
import { type BenchPiece, type BenchRow, percentile } from './measure';
import { type ServedPlant, servePlant } from './served-plant';

const HOUR_MS = 3_600_000;
const START = Date.parse('2026-01-01T00:00:00Z');
const HISTORY_HOURS = 60 * 24;
/** Every so often the newest hour of every unit arrives, in one file. */
const INGEST_EVERY_MS = 10_000;
const READERS = 8;
/** How long a reader looks at a page. */
const LOOK_MS = 2000;
const SEED = 7;
/** Parts of the soak whose latencies and memory are compared. */
const PARTS = 4;

type Sample = { at: number; ms: number };
type Kind = 'page' | 'interface' | 'import';
type Taken = Record<Kind, Sample[]> & { memory: { at: number; mebibytes: number }[]; refused: string[] };

/** Minutes of CLEANBY_SOAK_MINUTES, an hour where nobody says. */
const minutes = () => Number(process.env.CLEANBY_SOAK_MINUTES ?? 60);

export const soak: BenchPiece = {
  name: 'soak',
  about: 'an hour of steady ingest with readers: does anything grow? (CLEANBY_SOAK_MINUTES, DATABASE_URL)',
  async run({ scale, say }) {
    const units = Math.max(5, Math.round(100 * scale));
    const length = minutes() * 60_000;
    const folder = mkdtempSync(join(tmpdir(), 'cleanby-soak-'));
    const databaseUrl = process.env.CLEANBY_SOAK_DATABASE_URL ?? `file:${join(folder, 'plant.db')}`;
    const ahead = Math.ceil(length / INGEST_EVERY_MS) + 1;
    const coming = await fillPlant(databaseUrl, units, ahead);
    say(`${units} units with ${HISTORY_HOURS} hours each; ${minutes()} minutes begin`);
    const plant = await servePlant(databaseUrl);
    try {
      const record = await soakFor(plant, { length, coming, say });
      return rowsOf(record, length, units);
    } finally {
      await plant.stop();
      rmSync(folder, { recursive: true, force: true });
    }
  },
};

type Coming = { tag: string; readings: ReadingColumns }[];

/** Registers a fleet with two months behind it; what comes after them is given back. */
async function fillPlant(databaseUrl: string, units: number, ahead: number): Promise<Coming> {
  const context = await openContext(databaseUrl);
  try {
    const { fleet, plans } = makeHeldOutFleet(SEED, units);
    await registerFleet(context, fleet);
    const end = START + (HISTORY_HOURS + ahead) * HOUR_MS;
    const coming: Coming = [];
    for (const [index, plan] of plans.entries()) {
      const span = { start: START, end, stepMs: HOUR_MS, seed: index + 1 };
      const { readings } = generateReadings(plan, span);
      const border = readings.time.findIndex((time) => time >= START + HISTORY_HOURS * HOUR_MS);
      await importColumns(context, plan.unit.tag, cut(readings, 0, border));
      coming.push({ tag: plan.unit.tag, readings: cut(readings, border, readings.time.length) });
    }
    await analyse(context);
    return coming;
  } finally {
    await closeContext(context);
  }
}

function cut(readings: ReadingColumns, from: number, to: number): ReadingColumns {
  const part = { time: readings.time.subarray(from, to), flowBasis: readings.flowBasis.subarray(from, to) };
  for (const sensor of SENSORS) Object.assign(part, { [sensor]: readings[sensor].subarray(from, to) });
  return part as ReadingColumns;
}

type Soaking = { length: number; coming: Coming; say(line: string): void };

async function soakFor(plant: ServedPlant, { length, coming, say }: Soaking): Promise<Taken> {
  const record: Taken = { page: [], interface: [], import: [], memory: [], refused: [] };
  const began = performance.now();
  const elapsed = () => performance.now() - began;
  const goOn = () => elapsed() < length;
  const ask = async (kind: Kind, path: string, init: RequestInit) => {
    const at = elapsed();
    const answer = await fetch(`${plant.address}${path}`, init);
    const text = await answer.text();
    if (!answer.ok)
      record.refused.push(`${init.method ?? 'GET'} ${path}: ${answer.status} ${text.slice(0, 200)}`);
    record[kind].push({ at, ms: elapsed() - at });
  };
  const ingest = async () => {
    for (let hour = 0; goOn(); hour++) {
      const files = csvsOf(coming, START + (HISTORY_HOURS + hour) * HOUR_MS);
      for (const [index, body] of files.entries()) {
        await ask('import', `/api/v1/imports?name=hour-${hour}-${index}.csv`, {
          method: 'POST',
          headers: { ...plant.program, 'content-type': 'text/csv' },
          body,
        });
      }
      await wait(Math.max(0, (hour + 1) * INGEST_EVERY_MS - elapsed()));
    }
  };
  const read = async (reader: number) => {
    await wait((reader / READERS) * LOOK_MS);
    for (let look = reader; goOn(); look++) {
      const tag = encodeURIComponent(coming[look % coming.length]!.tag);
      const pages = ['/', `/units/${tag}`, '/review', `/units/${tag}/cost`];
      await ask('page', pages[look % pages.length]!, { headers: plant.person });
      await ask('interface', `/api/v1/units/${tag}`, { headers: plant.program });
      await wait(LOOK_MS);
    }
  };
  const watch = async () => {
    for (let next = 0; goOn(); next += length / 60) {
      const mebibytes = plant.memory();
      if (mebibytes !== null) record.memory.push({ at: elapsed(), mebibytes });
      const pages = record.page.slice(-200).map(({ ms }) => ms);
      if (pages.length > 0)
        say(
          `${(elapsed() / 60_000).toFixed(1)} min: ${mebibytes?.toFixed(0)} MiB, pages p95 ${percentile(pages, 0.95).toFixed(0)} ms, last import ${record.import.at(-1)?.ms.toFixed(0)} ms, refused ${record.refused.length}`,
        );
      await wait(Math.max(0, Math.min(next + length / 60, length) - elapsed()));
    }
  };
  await Promise.all([ingest(), watch(), ...Array.from({ length: READERS }, (_, reader) => read(reader))]);
  for (const line of record.refused.slice(0, 10)) say(`refused: ${line}`);
  return record;
}

/** One hour of every unit as canonical files in SI, one for each way in which flows are measured. */
function csvsOf(coming: Coming, time: number): string[] {
  const byHead = new Map<string, string>();
  for (const { tag, readings } of coming) {
    const row = readings.time.indexOf(time);
    if (row < 0) continue;
    const { head, lineOf } = csvLines(readings.flowBasis[row]!);
    byHead.set(head, `${byHead.get(head) ?? head}${lineOf(tag, readings, row)}`);
  }
  return [...byHead.values()];
}

function rowsOf(record: Taken, length: number, units: number): BenchRow[] {
  const part = <T extends { at: number }>(samples: readonly T[], index: number) =>
    samples.filter(({ at }) => Math.min(PARTS - 1, Math.floor((at / length) * PARTS)) === index);
  const p95 = (kind: Kind, index: number) =>
    percentile(
      part(record[kind], index).map(({ ms }) => ms),
      0.95,
    );
  const largest = (index: number) =>
    Math.max(...part(record.memory, index).map(({ mebibytes }) => mebibytes));
  const names: Record<Kind, string> = {
    page: 'pages (fleet, unit, review, cost)',
    interface: 'HTTP interface, one unit',
    import: `import of an hour of ${units} units (several files), until analysed`,
  };
  const latencies = (['page', 'interface', 'import'] as const).map((kind) => ({
    what: `p95 of ${names[kind]}: last quarter against second`,
    ours: p95(kind, PARTS - 1),
    peer: p95(kind, 1),
    peerName: 'second quarter',
    unit: 'ms',
    ratio: p95(kind, PARTS - 1) / p95(kind, 1),
    limit: { most: 1.5 },
    memory: null,
  }));
  return [
    ...latencies,
    {
      what: `memory of all its processes, largest, over ${(length / 60_000).toFixed(0)} min: last quarter against second`,
      ours: largest(PARTS - 1),
      peer: largest(1),
      peerName: 'second quarter',
      unit: 'MiB',
      ratio: largest(PARTS - 1) / largest(1),
      limit: { most: 1.2 },
      memory: largest(PARTS - 1),
    },
    {
      what: `requests refused, of ${record.page.length + record.interface.length + record.import.length}`,
      ours: record.refused.length,
      peer: null,
      peerName: null,
      unit: 'requests',
      ratio: null,
      limit: { most: 0 },
      memory: null,
    },
  ];
}
