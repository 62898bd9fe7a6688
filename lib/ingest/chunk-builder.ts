import type { SetAsideReason } from '@/lib/contract/import-report';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { CHUNK_ROWS, makeReadingChunk, type ReadingChunk } from './reading-chunk';
import { setAsideRow } from './set-aside';

/** A line being read, for the messages about it. */
export type RowAt = { line: number; text: string };

/** Status words of a file that are counted one by one. */
const MAX_STATUS_WORDS = 20;

/** Fills chunks row by row; a row is written in place and only counts once it is kept. */
export class ChunkBuilder {
  readonly #knownTags: ReadonlySet<string>;
  readonly #capacity: number;
  readonly #tags: string[] = [];
  readonly #words = new Set<string>();
  readonly #tagIndex = new Map<string, number>();
  #chunk: ReadingChunk;
  /** Columns of the chunk by sensor number, so that the loop needs no look-up by name. */
  columns: Float64Array[];

  /** @param headroom readings that may still come once `isFull` */
  constructor(knownTags: ReadonlySet<string>, headroom: number) {
    this.#knownTags = knownTags;
    this.#capacity = CHUNK_ROWS + headroom;
    this.#chunk = makeReadingChunk(this.#tags, this.#capacity);
    this.columns = SENSORS.map((sensor) => this.#chunk[sensor]);
  }

  /** Where the row being written stands in `columns`. */
  get row(): number {
    return this.#chunk.length;
  }

  get read(): number {
    return this.#chunk.read;
  }

  /** Number of a registered tag; -1 for any other. */
  tagIndex(tag: string): number {
    const known = this.#tagIndex.get(tag);
    if (known !== undefined) return known;
    if (!this.#knownTags.has(tag)) return -1;
    this.#tagIndex.set(tag, this.#tags.length);
    return this.#tags.push(tag) - 1;
  }

  /** Keeps the row written in `columns`. */
  keep(tag: number, time: number, flowBasis: number, line: number): void {
    const chunk = this.#chunk;
    const i = chunk.length++;
    chunk.tag[i] = tag;
    chunk.time[i] = time;
    chunk.flowBasis[i] = flowBasis;
    chunk.line[i] = line;
  }

  /** Empties the row being written. */
  clear(): void {
    for (const column of this.columns) column[this.row] = Number.NaN;
  }

  setAside(at: RowAt, reason: SetAsideReason, field: string | null, message: string): void {
    this.#chunk.setAside.push(setAsideRow(at, reason, field, message));
  }

  /** Counts a cell that holds a status word. */
  countStatus(word: string): void {
    const { statusCells } = this.#chunk;
    statusCells.total++;
    if (!this.#words.has(word) && this.#words.size >= MAX_STATUS_WORDS) return;
    this.#words.add(word);
    statusCells.byWord.set(word, (statusCells.byWord.get(word) ?? 0) + 1);
  }

  /** Counts a data row of the file, read or set aside. */
  countRow(): void {
    this.#chunk.read++;
  }

  get isFull(): boolean {
    return this.#chunk.length >= CHUNK_ROWS || this.#chunk.read >= CHUNK_ROWS;
  }

  /** The chunk filled so far; the next row begins a new one. */
  take(): ReadingChunk {
    const taken = this.#chunk;
    this.#chunk = makeReadingChunk(this.#tags, this.#capacity);
    this.columns = SENSORS.map((sensor) => this.#chunk[sensor]);
    return taken;
  }
}
