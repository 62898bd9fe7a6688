import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cpuOf, INNER_RUNS } from './cpu-time';
import { exchangerOf, type Kind, yearOf } from './kernel-data';
import { growthRows } from './kernel-growth';
import { type KernelInput, readFigures, soundStates, writeInput } from './kernel-input';
import { conductances, properties, whole } from './kernel-ours';
import { type KernelThreads, openKernelThreads } from './kernel-threads';
import {
  type BenchOptions,
  type BenchPiece,
  type BenchRow,
  hasProgram,
  median,
  residentMemory,
} from './measure';
import { plainConductances, plainProperties, plainReadings } from './plain-kernels';
import { requireSame } from './same-figures';

const UNITS = 100;
/** Unit-years in each thread before anything is timed: a program at work has its code compiled, as NumPy has from the start. */
const WARM_YEARS = 40;
const NUMPY = fileURLToPath(new URL('./numpy/run.py', import.meta.url));
const C = fileURLToPath(new URL('./c/kernels.c', import.meta.url));

/** `wall`: all unit-years in time of the clock, on as many cores as a side uses; the others in CPU time of one thread. */
type Part = 'properties' | 'conductance' | 'unit' | 'units' | 'wall';
type Times = Partial<Record<Part, number>>;
type Peer = { name: string; times: Times[] };

/** `npm run bench kernels` */
export const kernels: BenchPiece = {
  name: 'kernels',
  about:
    'properties, conductance and the whole evaluation of readings, against the same formulas in NumPy and in C',
  async run(options) {
    const rows: BenchRow[] = [];
    for (const kind of ['counter', 'shell'] as const) rows.push(...(await measureKind(kind, options)));
    return rows;
  },
};

async function measureKind(kind: Kind, options: BenchOptions): Promise<BenchRow[]> {
  const folder = await mkdtemp(join(tmpdir(), 'cleanby-bench-'));
  const exchanger = exchangerOf(kind);
  const units = Math.max(1, Math.round(UNITS * options.scale));
  const years = Array.from({ length: units }, (_, unit) => yearOf(exchanger, 1 + unit));
  const threads = await openKernelThreads(kind, units);
  try {
    const input = { kind, exchanger, years, states: soundStates(years) };
    return await new KernelBench(folder, { input, threads, options }).rows();
  } finally {
    await threads.close();
    await rm(folder, { recursive: true, force: true });
  }
}

class KernelBench {
  readonly #folder: string;
  readonly #input: KernelInput;
  readonly #threads: KernelThreads;
  readonly #options: BenchOptions;

  constructor(
    folder: string,
    { input, threads, options }: { input: KernelInput; threads: KernelThreads; options: BenchOptions },
  ) {
    this.#folder = folder;
    this.#input = input;
    this.#threads = threads;
    this.#options = options;
  }

  async rows(): Promise<BenchRow[]> {
    await writeInput(this.#folder, this.#input);
    const hasNumpy = hasProgram('python3', ['-c', 'import numpy']);
    const hasC = hasProgram('gcc') && this.#compile();
    if (!hasNumpy)
      this.#options.say('NumPy is not here: plain JavaScript with objects is the peer of the kernels');
    if (!hasC) this.#options.say('gcc is not here: the bound by C is left out');
    await this.#warm();
    const ours: Times[] = [];
    const numpy: Times[] = [];
    const c: Times[] = [];
    const plain: Times[] = [];
    for (let run = 0; run < this.#options.runs; run++) {
      ours.push(await this.#ours());
      if (hasNumpy) numpy.push(this.#outside('python3', [NUMPY]));
      else plain.push(this.#plain());
      if (hasC) c.push(this.#outside(join(this.#folder, 'kernels'), []));
    }
    await this.#compare(hasNumpy, hasC);
    const peers: Peer[] = [
      { name: 'NumPy, same formulas', times: numpy },
      { name: 'plain JavaScript, an object per reading', times: plain },
      { name: 'C, gcc -O2, same formulas', times: c },
    ];
    const { exchanger } = this.#input;
    return [
      ...peers.flatMap((peer) => this.#against(ours, peer)),
      ...growthRows(exchanger, this.#unit(), this.#options.runs),
    ];
  }

  #against(ours: Times[], { name, times }: Peer): BenchRow[] {
    const parts = Object.keys(times[0] ?? {}) as Part[];
    return parts.map((part) => {
      const [mine, theirs] = [ours, times].map((of) => median(of.map((one) => one[part]!)));
      const isWall = part === 'wall';
      return {
        what: this.#wording(part),
        ours: mine!,
        peer: theirs!,
        peerName: isWall ? `${name}, in one process (no part of it uses a second core)` : name,
        unit: isWall ? 'ms' : 'ms of CPU',
        ratio: mine! / theirs!,
        // What is asked is asked of all cores together; one thread, and its kernels, are shown beside it.
        limit: isWall ? { most: 1 } : null,
        memory: residentMemory(),
      };
    });
  }

  #unit(): string {
    return this.#input.kind === 'counter'
      ? 'counter-current, water/water'
      : 'shell, 2 tube passes, water/sea water';
  }

  #wording(part: Part): string {
    const sound = this.#input.states[0]!.length.toLocaleString('en');
    if (part === 'properties') return `four properties of water, ${sound} temperatures`;
    if (part === 'conductance') return `${this.#unit()}: NTU, UA, LMTD and F of ${sound} readings`;
    const count = part === 'unit' ? 1 : this.#input.years.length;
    const where = part === 'wall' ? `on all ${this.#threads.count} cores by worker threads` : 'in one thread';
    return `${this.#unit()}: whole evaluation of ${count} unit-${count === 1 ? 'year' : 'years'} of hours, ${where}`;
  }

  async #warm(): Promise<void> {
    const { exchanger, years } = this.#input;
    for (let year = 0; year < WARM_YEARS; year++) whole(exchanger, years[year % years.length]!);
    const rounds = Math.ceil((WARM_YEARS * this.#threads.count) / years.length);
    for (let round = 0; round < rounds; round++) await this.#threads.work();
  }

  async #ours(): Promise<Times> {
    const { exchanger, years, states } = this.#input;
    const walls: number[] = [];
    for (let run = 0; run < INNER_RUNS; run++) walls.push(await this.#threads.work());
    return {
      properties: cpuOf(() => properties(states)),
      conductance: cpuOf(() => conductances(exchanger, states)),
      unit: cpuOf(() => whole(exchanger, years[0]!)),
      units: cpuOf(() => {
        for (const year of years) whole(exchanger, year);
      }),
      wall: median(walls),
    };
  }

  #plain(): Times {
    const readings = plainReadings(this.#input.states);
    return {
      properties: cpuOf(() => plainProperties(readings)),
      conductance: cpuOf(() => plainConductances(this.#input.kind, readings)),
    };
  }

  #outside(program: string, before: string[]): Times {
    const told = execFileSync(program, [...before, this.#folder, String(INNER_RUNS)], { encoding: 'utf8' });
    return JSON.parse(told) as Times;
  }

  #compile(): boolean {
    execFileSync('gcc', ['-O2', '-o', join(this.#folder, 'kernels'), C, '-lm']);
    return true;
  }

  async #compare(hasNumpy: boolean, hasC: boolean): Promise<void> {
    const { exchanger, years, states } = this.#input;
    const ours = [...properties(states), ...conductances(exchanger, states)];
    if (hasC) requireSame('C', ours, await readFigures(this.#folder, 'c-output.bin'));
    if (!hasNumpy) return;
    const evaluated = whole(exchanger, years[0]!);
    requireSame('NumPy', [...ours, ...evaluated], await readFigures(this.#folder, 'output.bin'));
  }
}
