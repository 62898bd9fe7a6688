import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Answers, type Asking, askedBy } from './asked-by';
import { makeLargeFleet } from './large-fleet';
import type { BenchOptions, BenchPiece, BenchRow } from './measure';
import { lookAt } from './page-looks';
import { type ServedPlant, servePlant } from './served-plant';

const UNITS = 10_000;
/** Share of the units with ten years of daily figures, the others with eighteen months: 3 GB instead of 8. */
const TEN_YEARS = 0.1;
const READERS = 20;
const MOST_P95_MS = 100;
const MOST_FIRST_PICTURE_MS = 1_000;
const MOST_FRAME_MS = 50;

/** `npm run bench pages`; BENCH_FLEET names a database that holds the large fleet already. */
export const pages: BenchPiece = {
  name: 'pages',
  about: 'the fleet page of 10,000 units: answers to 20 readers at once, first picture, scrolling',
  async run(options) {
    const folder = await mkdtemp(join(tmpdir(), 'cleanby-bench-'));
    try {
      const databaseUrl = process.env.BENCH_FLEET ?? (await madeIn(folder, options));
      const plant = await servePlant(databaseUrl);
      try {
        return [...(await answers(plant, options)), ...(await looks(plant, options))];
      } finally {
        await plant.stop();
      }
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  },
};

async function madeIn(folder: string, { scale, say }: BenchOptions): Promise<string> {
  const databaseUrl = `file:${join(folder, 'fleet.db')}`;
  await makeLargeFleet(databaseUrl, { units: Math.round(UNITS * scale), tenYears: TEN_YEARS, say });
  return databaseUrl;
}

type Asked = Omit<Asking, 'readers'> & { what: string; isAsked: boolean };

const always = (path: string) => () => path;
/** A page that nobody has had before. */
const another = (request: number) => `/?find=${String(request % UNITS).padStart(5, '0')}`;
/** How long somebody looks at what came. */
const LOOK_MS = 2_000;

const ASKED: Asked[] = [
  { what: 'the fleet page, again and again without a pause', path: always('/'), isAsked: true },
  {
    what: 'one unit found by its tag, again and again without a pause',
    path: always('/?find=00042'),
    isAsked: true,
  },
  {
    what: '30 further rows while scrolling, without a pause',
    path: always('/api/fleet/rows?from=3000&items=30'),
    isAsked: true,
  },
  {
    what: 'every time another unit found by its tag, looking at it for 2 s',
    path: another,
    lookMs: LOOK_MS,
    isAsked: true,
  },
  { what: 'every time another unit found by its tag, without a pause', path: another, isAsked: false },
];

/** The 95th percentile of answers to many readers at once, beside the plainest answer of the same server. */
async function answers(plant: ServedPlant, { runs, say }: BenchOptions): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  for (const { what, isAsked, ...asking } of ASKED) {
    // The first answer of a process reads the whole fleet; what is asked for is every other.
    await fetch(plant.address + asking.path(0), { headers: plant.person });
    const own: Answers[] = [];
    const plainest: Answers[] = [];
    for (let run = 0; run < runs; run++) {
      own.push(await askedBy(plant, { ...asking, readers: READERS }));
      plainest.push(await askedBy(plant, { ...asking, path: always('/api/health'), readers: READERS }));
    }
    const ours = middleOf(own);
    const peer = middleOf(plainest);
    say(`${what}: p50 ${ours.p50} ms, p95 ${ours.p95} ms, p99 ${ours.p99} ms, ${ours.perSecond} answers/s`);
    rows.push({
      what: `${what}, ${READERS} readers at once, p95`,
      ours: ours.p95,
      peer: peer.p95,
      peerName: 'the same server, /api/health',
      unit: 'ms',
      ratio: ours.p95 / peer.p95,
      limit: null,
      memory: plant.memory(),
    });
    if (isAsked) rows.push(alone('its p95, against what is asked', ours.p95, MOST_P95_MS));
  }
  return rows;
}

function middleOf(runs: Answers[]): Answers {
  return [...runs].sort((a, b) => a.p95 - b.p95)[runs.length >> 1]!;
}

function alone(what: string, ours: number, most: number, unit = 'ms'): BenchRow {
  return { what, ours, peer: null, peerName: null, unit, ratio: null, limit: { most }, memory: null };
}

async function looks(plant: ServedPlant, options: BenchOptions): Promise<BenchRow[]> {
  const seen = await lookAt(plant, '/', options.runs);
  options.say(`frames while scrolling: median ${seen.medianFrame.toFixed(1)} ms, ${seen.scrolled} px`);
  return [
    alone('the fleet page in a browser, largest picture', seen.largestPicture, MOST_FIRST_PICTURE_MS),
    alone('scrolling through all rows, longest frame', seen.longestFrame, MOST_FRAME_MS),
    alone('scrolling through all rows, frames with a row still on its way', 100 * seen.blankShare, 5, '%'),
  ];
}
