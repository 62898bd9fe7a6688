import { execFileSync } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { exchangerOf, type Kind, parametersOf, READINGS, yearOf } from './kernel-data';
import { conductances, properties, type States, whole } from './kernel-ours';
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
/** Each run of a peer takes the median of so many of its own. */
const INNER = 3;
const NUMPY = fileURLToPath(new URL('./numpy/run.py', import.meta.url));
const C = fileURLToPath(new URL('./c/kernels.c', import.meta.url));

type Part = 'properties' | 'conductance' | 'unit' | 'units';
type Times = Partial<Record<Part, number>>;

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
  try {
    return await new KernelBench(folder, kind, options).rows();
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

class KernelBench {
  readonly #folder: string;
  readonly #kind: Kind;
  readonly #options: BenchOptions;
  readonly #exchanger: Exchanger;
  readonly #years: ReadingColumns[];
  readonly #states: States;

  constructor(folder: string, kind: Kind, options: BenchOptions) {
    this.#folder = folder;
    this.#kind = kind;
    this.#options = options;
    this.#exchanger = exchangerOf(kind);
    const units = Math.max(1, Math.round(UNITS * options.scale));
    this.#years = Array.from({ length: units }, (_, unit) => yearOf(this.#exchanger, 1 + unit));
    this.#states = soundStates(this.#years);
  }

  async rows(): Promise<BenchRow[]> {
    await this.#writeInput();
    const hasNumpy = hasProgram('python3', ['-c', 'import numpy']);
    const hasC = hasProgram('gcc') && this.#compile();
    if (!hasNumpy)
      this.#options.say('NumPy is not here: plain JavaScript with objects is the peer of the kernels');
    if (!hasC) this.#options.say('gcc is not here: the bound by C is left out');
    const ours: Times[] = [];
    const numpy: Times[] = [];
    const c: Times[] = [];
    const plain: Times[] = [];
    for (let run = 0; run < this.#options.runs; run++) {
      ours.push(this.#ours());
      if (hasNumpy) numpy.push(this.#outside('python3', [NUMPY]));
      else plain.push(this.#plain());
      if (hasC) c.push(this.#outside(join(this.#folder, 'kernels'), []));
    }
    if (hasNumpy) await this.#compareWithNumpy();
    if (hasC) await this.#compareWithC();
    const peers = [
      { name: 'NumPy, same formulas', times: numpy, most: 1 },
      { name: 'plain JavaScript, an object per reading', times: plain, most: 1 },
      { name: 'C, gcc -O2, same formulas', times: c, most: null },
    ];
    return peers.flatMap((peer) => this.#against(ours, peer));
  }

  #against(ours: Times[], peer: { name: string; times: Times[]; most: number | null }): BenchRow[] {
    const parts = Object.keys(peer.times[0] ?? {}) as Part[];
    return parts.map((part) => {
      const [mine, theirs] = [ours, peer.times].map((times) => median(times.map((one) => one[part]!)));
      // What is asked is asked of the evaluation; its kernels are shown beside it.
      const isAsked = peer.most !== null && (part === 'unit' || part === 'units');
      return {
        what: this.#wording(part),
        ours: mine!,
        peer: theirs!,
        peerName: peer.name,
        unit: 'ms of CPU',
        ratio: mine! / theirs!,
        limit: isAsked ? { most: peer.most! } : null,
        memory: residentMemory(),
      };
    });
  }

  #wording(part: Part): string {
    const unit =
      this.#kind === 'counter' ? 'counter-current, water/water' : 'shell, 2 tube passes, water/sea water';
    const sound = this.#states[0]!.length.toLocaleString('en');
    if (part === 'properties') return `four properties of water, ${sound} temperatures`;
    if (part === 'conductance') return `${unit}: NTU, UA, LMTD and F of ${sound} readings`;
    const years = part === 'unit' ? 'one unit-year' : `${this.#years.length} unit-years`;
    return `${unit}: readings to daily figures, ${years} of hours`;
  }

  #ours(): Times {
    return {
      properties: cpuOf(() => properties(this.#states)),
      conductance: cpuOf(() => conductances(this.#exchanger, this.#states)),
      unit: cpuOf(() => whole(this.#exchanger, this.#years[0]!)),
      units: cpuOf(() => {
        for (const year of this.#years) whole(this.#exchanger, year);
      }),
    };
  }

  #plain(): Times {
    const readings = plainReadings(this.#states);
    return {
      properties: cpuOf(() => plainProperties(readings)),
      conductance: cpuOf(() => plainConductances(this.#kind, readings)),
    };
  }

  #outside(program: string, before: string[]): Times {
    const told = execFileSync(program, [...before, this.#folder, String(INNER)], { encoding: 'utf8' });
    return JSON.parse(told) as Times;
  }

  #compile(): boolean {
    execFileSync('gcc', ['-O2', '-o', join(this.#folder, 'kernels'), C, '-lm']);
    return true;
  }

  async #writeInput(): Promise<void> {
    const parameters = parametersOf(this.#exchanger, this.#kind, this.#years.length);
    const { minimum, maximum, density, specificHeat, viscosity, conductivity } = parameters.hot;
    const tables = [density, specificHeat, viscosity, conductivity].flatMap(({ intervals, coefficients }) => [
      intervals,
      ...coefficients,
    ]);
    const states = [[this.#states[0]!.length, this.#kind === 'counter' ? 0 : 1], ...this.#states];
    const columns = (['time', ...BALANCE_SENSORS] as const).flatMap((name) =>
      this.#years.map((year) => year[name]),
    );
    await writeFile(join(this.#folder, 'input.json'), JSON.stringify(parameters));
    await writeFile(join(this.#folder, 'input.bin'), bytesOf(columns));
    await writeFile(join(this.#folder, 'states.bin'), bytesOf(states));
    await writeFile(join(this.#folder, 'tables.bin'), bytesOf([[minimum, maximum], tables]));
  }

  async #compareWithNumpy(): Promise<void> {
    const kernels = [...properties(this.#states), ...conductances(this.#exchanger, this.#states)];
    const evaluated = whole(this.#exchanger, this.#years[0]!);
    requireSame('NumPy', [...kernels, ...evaluated], await this.#read('output.bin'));
  }

  async #compareWithC(): Promise<void> {
    const ours = [...properties(this.#states), ...conductances(this.#exchanger, this.#states)];
    requireSame('C', ours, await this.#read('c-output.bin'));
  }

  async #read(name: string): Promise<Float64Array> {
    const bytes = await readFile(join(this.#folder, name));
    return new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  }
}

/** Median CPU time of a few runs [ms]: what else the machine does counts for neither side. */
function cpuOf(act: () => unknown): number {
  const times: number[] = [];
  for (let run = 0; run < INNER; run++) {
    const before = process.cpuUsage();
    act();
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
  }
  return median(times);
}

/** The readings that all six sensors have and at which the unit runs, one column behind the other. */
function soundStates(years: readonly ReadingColumns[]): States {
  const states = BALANCE_SENSORS.map(() => new Float64Array(years.length * READINGS));
  let count = 0;
  for (const year of years) {
    for (let i = 0; i < READINGS; i++) {
      // Comparisons with NaN are false.
      if (!(year.hotFlow[i]! > 10 && year.hotIn[i]! > year.coldOut[i]! && year.coldFlow[i]! > 10)) continue;
      BALANCE_SENSORS.forEach((sensor, place) => {
        states[place]![count] = year[sensor][i]!;
      });
      count++;
    }
  }
  return states.map((column) => column.slice(0, count));
}

function bytesOf(parts: readonly ArrayLike<number>[]): Buffer {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return Buffer.from(all.buffer);
}
