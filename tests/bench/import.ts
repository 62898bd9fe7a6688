import { execFile } from 'node:child_process';
import { copyFile, mkdtemp, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { closeContext, openContext } from '@/lib/work/context';
import { registerFleet } from '@/lib/work/register-fleet';
import { plainFleet } from '../support/units';
import type { Took, Way } from './import-child';
import { type FileSize, TAGS, writeReadings } from './import-file';
import { type PeerTook, pythonLoad, shellLoad } from './import-peers';
import { type BenchOptions, type BenchPiece, type BenchRow, hasProgram, median } from './measure';

const ROWS = 2_000_000;
/** Most that an import may take of the database's own bare load of the same file. */
const MOST_OF_BARE = 2.5;
/** Most that memory may grow from a file to one of four times its size: what the collector of garbage leaves to chance. */
const MOST_GROWTH = 1.15;
const CHILD = fileURLToPath(new URL('./import-child.ts', import.meta.url));
const SHELL = 'sqlite3 shell, bare .import';

/** `npm run bench import` */
export const importing: BenchPiece = {
  name: 'import',
  about: "readings from a CSV file into SQLite, against the database's own bare load of the same file",
  async run(options) {
    const folder = await mkdtemp(join(tmpdir(), 'cleanby-bench-'));
    try {
      return await new ImportBench(folder, options).rows();
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  },
};

class ImportBench {
  readonly #folder: string;
  readonly #options: BenchOptions;
  readonly #rows: number;
  #databases = 0;

  constructor(folder: string, options: BenchOptions) {
    this.#folder = folder;
    this.#options = options;
    // A whole number of hours of each unit.
    this.#rows = Math.max(1, Math.round((ROWS * options.scale) / TAGS.length)) * TAGS.length;
  }

  async rows(): Promise<BenchRow[]> {
    const base = this.#path('base.db');
    const context = await openContext(`file:${base}`);
    await registerFleet(context, plainFleet(TAGS));
    await closeContext(context);
    const canonical = await this.#file('canonical.csv', { rows: this.#rows, layout: 'canonical' });
    return [
      ...(await this.#againstPeers(canonical)),
      ...(await this.#again(canonical)),
      ...(await this.#otherFiles(canonical)),
      await this.#memory(canonical),
    ];
  }

  async #againstPeers(file: string): Promise<BenchRow[]> {
    const peers: [string, (database: string) => Promise<PeerTook>][] = [
      ['csv-parse and a prepared INSERT in a loop', (database) => this.#child('plain-loop', database, file)],
      [
        'prepared INSERT of columns that are parsed already',
        (database) => this.#child('bare-insert', database, file),
      ],
    ];
    if (hasProgram('python3'))
      peers.push(['Python, csv and sqlite3', (database) => pythonLoad(database, file)]);
    else this.#options.say('Python is not here: that peer is left out');
    if (hasProgram('sqlite3')) peers.unshift([SHELL, (database) => shellLoad(database, file)]);
    else this.#options.say('the sqlite3 shell is not here: what is asked of the ratio is not judged');
    const ours: Took[] = [];
    const theirs = peers.map((): PeerTook[] => []);
    for (let run = 0; run < this.#options.runs; run++) {
      ours.push(await this.#ours(file));
      for (const [i, [, load]] of peers.entries()) theirs[i]!.push(await load(await this.#fresh(null)));
    }
    const memory = Math.max(...ours.map(({ peakMiB }) => peakMiB));
    const what = `import of ${inWords(this.#rows)} rows, 8 sensors`;
    return peers.flatMap(([peerName], i) => {
      const limit = peerName === SHELL ? { most: MOST_OF_BARE } : null;
      const line = { what, peerName, limit, memory };
      const cpu = { ...line, what: `${what}, time of the processors` };
      return [
        compared(
          line,
          ours.map(({ ms }) => ms),
          theirs[i]!.map(({ ms }) => ms),
        ),
        compared(
          cpu,
          ours.map(({ cpuMs }) => cpuMs),
          theirs[i]!.map(({ cpuMs }) => cpuMs),
        ),
      ];
    });
  }

  /** The same file once more, of which everything is there. */
  async #again(file: string): Promise<BenchRow[]> {
    const first: Took[] = [];
    const second: Took[] = [];
    for (let run = 0; run < this.#options.runs; run++) {
      const database = await this.#fresh('base.db');
      first.push(await this.#child('ours', database, file));
      second.push(await this.#child('ours', database, file));
    }
    const line = { what: 'the same file again, all unchanged', peerName: 'its first import', limit: null };
    return [compared({ ...line, memory: peak(second) }, wall(second), wall(first))];
  }

  async #otherFiles(canonical: string): Promise<BenchRow[]> {
    const wide = await this.#file('wide.csv', { rows: this.#rows, layout: 'plant-wide' });
    const packed = await this.#file('canonical.csv.gz', { rows: this.#rows, layout: 'canonical' });
    const took: Record<string, Took[]> = { canonical: [], wide: [], packed: [], read: [] };
    for (let run = 0; run < this.#options.runs; run++) {
      took.canonical!.push(await this.#ours(canonical));
      took.wide!.push(await this.#ours(wide));
      took.packed!.push(await this.#ours(packed));
      took.read!.push(await this.#child('ours-read', this.#path('none.db'), canonical));
    }
    const lineOf = (what: string, own: Took[]) => {
      const line = { what, peerName: 'the canonical file', limit: null, memory: peak(own) };
      return compared(line, wall(own), wall(took.canonical!));
    };
    return [
      lineOf('plant-wide file of the same readings', took.wide!),
      lineOf('gzipped file', took.packed!),
      lineOf('reading the canonical file alone, nothing stored', took.read!),
    ];
  }

  async #memory(file: string): Promise<BenchRow> {
    const large = await this.#file('large.csv', { rows: this.#rows * 4, layout: 'canonical' });
    const peaks: [large: number, plain: number] = [
      (await this.#ours(large)).peakMiB,
      (await this.#ours(file)).peakMiB,
    ];
    const line = {
      what: 'most memory, file of four times the size',
      peerName: 'the file itself',
      limit: { most: MOST_GROWTH },
      memory: peaks[0],
    };
    return { ...compared(line, [peaks[0]], [peaks[1]]), unit: 'MiB' };
  }

  #ours(file: string): Promise<Took> {
    return this.#fresh('base.db').then((database) => this.#child('ours', database, file));
  }

  /** A fresh database, empty or with the plant in it; the one before it goes. */
  async #fresh(from: string | null): Promise<string> {
    for (const end of ['', '-wal', '-shm'])
      await rm(this.#path(`${this.#databases}.db${end}`), { force: true });
    const path = this.#path(`${++this.#databases}.db`);
    if (from !== null) await copyFile(this.#path(from), path);
    return path;
  }

  async #child(way: Way, database: string, file: string): Promise<Took> {
    const words = ['--import', 'tsx', CHILD, way, database, file];
    const { stdout } = await promisify(execFile)(process.execPath, words, { encoding: 'utf8' });
    const took = JSON.parse(stdout) as Took;
    const { ms, cpuMs, peakMiB, longestHoldMs, rows } = took;
    const figures = [ms, cpuMs, peakMiB, longestHoldMs].map(Math.round);
    this.#options.say(
      `${way}: ${figures[0]} ms, ${figures[1]} ms of processors, ${figures[2]} MiB, event loop held ${figures[3]} ms at most`,
    );
    if (rows % this.#rows !== 0 || rows === 0)
      throw new Error(`${way} took ${rows} rows instead of ${this.#rows}`);
    return took;
  }

  async #file(name: string, size: FileSize): Promise<string> {
    const path = this.#path(name);
    await writeReadings(path, size);
    const { size: bytes } = await stat(path);
    this.#options.say(`${name}: ${inWords(size.rows)} readings, ${inWords(Math.round(bytes / 2 ** 20))} MiB`);
    return path;
  }

  #path(name: string): string {
    return join(this.#folder, name);
  }
}

type Line = Pick<BenchRow, 'what' | 'peerName' | 'limit' | 'memory'>;

function compared(line: Line, ours: number[], peer: number[]): BenchRow {
  const [own, other] = [median(ours), median(peer)];
  return { ...line, ours: own, peer: other, unit: 'ms', ratio: own / other };
}

const wall = (took: Took[]) => took.map(({ ms }) => ms);
const peak = (took: Took[]) => Math.max(...took.map(({ peakMiB }) => peakMiB));
const inWords = (count: number) => count.toLocaleString('en-GB');
