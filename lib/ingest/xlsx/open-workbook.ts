import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { AppError, type ErrorCode } from '@/lib/contract/app-error';
import type { WorkbookLimits, WorkbookLine } from './workbook';

const MEBIBYTE = 1_048_576;
/** Workbooks read at the same time: each takes a process with memory of its own. */
const MOST_AT_ONCE = 4;

/** Exit codes from here on stand for a signal, such as that of a heap that is full; by a signal itself there is none. */
const ABORTED = 128;

let atOnce = 0;

/** All bytes of a workbook, as its directory stands at its end; refuses one that is too large before it is all there. */
export async function gatherWorkbook(
  source: AsyncIterable<Uint8Array>,
  limits: WorkbookLimits,
): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of source) {
    size += piece.length;
    if (size > limits.maxBytes) {
      throw refusal(
        'too-large',
        `The workbook is larger than ${limits.maxBytes / MEBIBYTE} MiB; save the sheet as CSV, or send it in parts`,
      );
    }
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
}

/**
 * Takes a workbook apart in a process of its own, which is ended where it takes too much memory or time, and when the
 * generator is left. Whoever reads sets the pace: nothing is held here but the piece in hand.
 */
export async function* workbookLines(
  bytes: Uint8Array,
  limits: WorkbookLimits,
): AsyncGenerator<WorkbookLine> {
  if (atOnce >= MOST_AT_ONCE) {
    throw refusal('conflict', 'Other workbooks are being read at the moment; try again in a minute');
  }
  atOnce++;
  const child = startProcess(limits);
  const watch = new Watch(child, limits.timeMs);
  try {
    child.stdin!.end(bytes);
    for await (const text of linesOf(watch.watched(child.stdout!.setEncoding('utf8')))) {
      const line = JSON.parse(text) as WorkbookLine;
      if ('end' in line) return;
      if ('fault' in line) throw refusal(...faultOf(line.fault));
      yield line;
    }
    throw await watch.endedEarly();
  } finally {
    atOnce--;
    watch.stop();
    child.kill('SIGKILL');
  }
}

function startProcess(limits: WorkbookLimits): ChildProcess {
  // The bundled server runs elsewhere than this file stands, so the script is found from the project's root.
  const script = join(
    process.env.CLEANBY_ROOT ?? process.cwd(),
    'lib',
    'ingest',
    'xlsx',
    'workbook-process.mjs',
  );
  const words = [`--max-old-space-size=${limits.heapMB}`, script, JSON.stringify(limits)];
  // A reader of strangers' files is given nothing to tell them. Dates without a zone must not move to this machine's.
  const env: NodeJS.ProcessEnv = { NODE_ENV: process.env.NODE_ENV, TZ: 'UTC' };
  // The bundler would take what is started for a module of its own.
  return spawn(/* turbopackIgnore: true */ process.execPath, words, {
    env,
    stdio: ['pipe', 'pipe', 'ignore'],
  });
}

/** Ends the process once it has been waited for too long; the time its reader takes does not count. */
class Watch {
  readonly #child: ChildProcess;
  readonly #exitCode: Promise<number | null>;
  #left: number;
  #failure: Error | null = null;
  #isOverTime = false;

  constructor(child: ChildProcess, timeMs: number) {
    this.#child = child;
    this.#left = timeMs;
    this.#exitCode = new Promise((resolve) => child.once('exit', resolve));
    child.on('error', (error) => {
      this.#failure = error;
      child.stdout?.destroy();
    });
    // A process that has died does not take the rest of its file.
    child.stdin?.on('error', () => {});
  }

  async *watched(source: AsyncIterable<string>): AsyncGenerator<string> {
    const iterator = source[Symbol.asyncIterator]();
    for (;;) {
      const began = performance.now();
      const timer = setTimeout(() => this.#end(), this.#left);
      try {
        const next = await iterator.next();
        if (next.done) break;
        this.#left -= performance.now() - began;
        clearTimeout(timer);
        yield next.value;
      } catch (error) {
        throw this.#failure ?? error;
      } finally {
        clearTimeout(timer);
      }
    }
  }

  /** Why the process said nothing more. One that gives up by itself has met what it does not know. */
  async endedEarly(): Promise<AppError> {
    const code = await this.#exitCode;
    if (code !== null && code < ABORTED) return refusal(...faultOf(null));
    const why = this.#isOverTime ? 'takes too long to read' : 'takes too much memory to read';
    return refusal('too-large', `The workbook ${why}; save the sheet as CSV, or send it in parts`);
  }

  stop(): void {
    this.#child.stdout?.destroy();
  }

  #end(): void {
    this.#isOverTime = true;
    this.#child.kill('SIGKILL');
  }
}

async function* linesOf(pieces: AsyncIterable<string>): AsyncGenerator<string> {
  let held: string[] = [];
  for await (const piece of pieces) {
    const parts = piece.split('\n');
    for (const part of parts.slice(0, -1)) {
      yield held.length === 0 ? part : held.join('') + part;
      held = [];
    }
    const rest = parts.at(-1)!;
    if (rest !== '') held.push(rest);
  }
}

function faultOf(fault: { code: ErrorCode; message: string } | null): [ErrorCode, string] {
  return fault === null
    ? ['not-readable', 'The workbook is damaged or cut off; save it again and send it whole']
    : [fault.code, fault.message];
}

function refusal(code: ErrorCode, message: string): AppError {
  return new AppError(code, message, [{ field: 'file', message }]);
}
