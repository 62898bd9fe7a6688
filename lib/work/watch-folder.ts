import { resolve } from 'node:path';
import { AppError } from '@/lib/contract/app-error';
import type { ImportReport } from '@/lib/contract/import-report';
import { latestStates, type StoredWatchedFile } from '@/lib/store/entities/watched-files';
import { actingAs, type Context } from './context';
import { knownError } from './known-error';
import { log } from './log';
import { savedMapping } from './saved-mappings';
import { bringUpToDate } from './take-readings';
import { ChangedWhileReadError } from './watch/file-bytes';
import { type FolderFile, listFolder } from './watch/list-folder';
import { isWorthAnotherTry, type Reading, takeFile } from './watch/take-file';
import { isUnended, PERHAPS_CUT } from './watch/unended-file';

export type WatchRequest = {
  folder: string;
  /** Name of a saved mapping; null where the files explain themselves. */
  mappingName: string | null;
  /** Zone of times without offset; null where the mapping or the files say it. */
  timeZone: string | null;
  /** Takes one line about what happened. */
  say: (line: string) => void;
  signal: AbortSignal;
};

/** A last line without a line end is still being written, unless nothing was written for so long [ms]. */
const STANDS_STILL_MS = 600_000;

/** What one look at the folder came to. */
export type Look = { taken: number; refused: number; failed: number; growing: number };

/**
 * Watches a folder for files of readings. Each look takes what is new or changed; a file that is still growing is left until
 * size and time stand still for two looks, and a text file until its last line has an end or stood still for long. The plant's files are only read: never moved, never deleted.
 */
export class FolderWatch {
  readonly #context: Context;
  readonly #request: WatchRequest;
  readonly #folder: string;
  /** Size and time of each file at the look before. */
  #seen = new Map<string, string>();
  /** What was said of each file or of the folder last: the same again is not said. */
  readonly #said = new Map<string, string>();
  #isFirst = true;

  constructor(context: Context, request: WatchRequest) {
    this.#folder = resolve(request.folder);
    this.#context = actingAs(context, { kind: 'system', id: null, name: `watched folder ${this.#folder}` });
    this.#request = request;
  }

  /** One look; whatever goes wrong is said and tried again at the next one. Only a stop that is asked for throws. */
  async look(): Promise<Look> {
    const look: Look = { taken: 0, refused: 0, failed: 0, growing: 0 };
    const { signal } = this.#request;
    try {
      await this.#lookThrough(look);
    } catch (error) {
      signal.throwIfAborted();
      look.failed++;
      this.#say('', `${this.#folder}: ${this.#why(error)}; trying again`);
    }
    // What a watch before this one took in and was stopped over is analysed too.
    if (look.taken > 0 || this.#isFirst) await bringUpToDate(this.#context);
    this.#isFirst = false;
    return look;
  }

  async #lookThrough(look: Look): Promise<void> {
    const reading = await this.#reading();
    const { files, leadingOut } = await listFolder(this.#folder);
    if (this.#said.delete('')) this.#request.say(`${this.#folder}: can be read again`);
    for (const name of leadingOut)
      this.#say(name, `${name}: a link that leads out of the folder; not followed`);
    const states = await latestStates(this.#context.store.entities, this.#folder);
    const seen = new Map<string, string>();
    for (const file of files) {
      const state = `${file.bytes} ${file.modifiedAt}`;
      seen.set(file.name, state);
      if (isDone(file, states.get(file.name), reading)) continue;
      if (this.#seen.get(file.name) === state) await this.#take(file, { reading, look });
      else look.growing++;
    }
    this.#seen = seen;
  }

  async #take(file: FolderFile, { reading, look }: { reading: Reading; look: Look }): Promise<void> {
    const { signal } = this.#request;
    const { name } = file;
    try {
      const unended = await isUnended(file.path);
      if (unended && this.#isFresh(file)) {
        look.growing++;
        this.#say(
          name,
          `${name}: its last line has no line end yet; taken once it has, or once nothing was written for 10 minutes`,
        );
        return;
      }
      const outcome = await takeFile(this.#context, file, { reading, signal });
      this.#said.delete(name);
      if (outcome.kind === 'unchanged') return;
      if (outcome.kind === 'refused') {
        look.refused++;
        this.#request.say(`${name}: refused, tried again when it changes. ${outcome.refusal}`);
      } else if (outcome.kind === 'met-before') {
        this.#request.say(`${name}: the same content came in before, as import ${outcome.batch}`);
      } else {
        look.taken++;
        this.#request.say(`${name}: ${inWords(outcome.report)}${unended ? `; ${PERHAPS_CUT}` : ''}`);
      }
    } catch (error) {
      signal.throwIfAborted();
      if (error instanceof ChangedWhileReadError) {
        look.growing++;
        return;
      }
      look.failed++;
      this.#say(name, `${name}: ${this.#why(error)}; trying again`);
    }
  }

  #isFresh({ modifiedAt }: FolderFile): boolean {
    // Clocks of shares may be ahead: a time far in the future holds nothing up.
    return Math.abs(this.#context.now() - modifiedAt) < STANDS_STILL_MS;
  }

  /** @throws AppError 'not-found' where the mapping is not there */
  async #reading(): Promise<Reading> {
    const { mappingName, timeZone } = this.#request;
    const saved = mappingName === null ? null : await savedMapping(this.#context, mappingName);
    return {
      folder: this.#folder,
      mapping: saved?.mapping ?? null,
      mappingName,
      mappingChangedAt: saved === null ? 0 : Date.parse(saved.changedAt),
      timeZone,
    };
  }

  #say(about: string, line: string): void {
    if (this.#said.get(about) === line) return;
    this.#said.set(about, line);
    this.#request.say(line);
  }

  #why(error: unknown): string {
    if (isSystemError(error)) return `cannot be read (${error.message})`;
    const known = knownError(error);
    if (known !== null) return [known.message, ...known.faults.map(({ message }) => message)].join(': ');
    log.error({ err: error, folder: this.#folder }, 'watching failed');
    return 'something went wrong here; the log says what';
  }
}

/** Whether a file stands as it did when it was taken or refused: its bytes need not be read again. */
function isDone(file: FolderFile, state: StoredWatchedFile | undefined, reading: Reading): boolean {
  if (state === undefined || state.bytes !== file.bytes || state.modifiedAt !== file.modifiedAt) return false;
  return !isWorthAnotherTry(state, reading);
}

/** An error of the file system: a share that is gone, a file that another program holds. */
function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && !(error instanceof AppError) && 'syscall' in error;
}

function inWords({ read, added, replaced, unchanged, setAside, batch }: ImportReport): string {
  return `import ${batch}: ${read} rows read, ${added} added, ${replaced} replaced, ${unchanged} unchanged, ${setAside} set aside`;
}
