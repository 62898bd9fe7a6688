import { type FileHandle, open, rm } from 'node:fs/promises';
import type { SetAsideRow } from '@/lib/contract/import-report';
import { makeRows, type ReadingRows } from './reading-rows';

/** A stretch of a file: its readings by unit and time, and the rows set aside beside them. */
export type Run = { rows: ReadingRows; setAside: SetAsideRow[] };

/** Runs on disk as they are in memory. */
export class SpillFile {
  readonly #path: string;
  readonly #handle: FileHandle;
  readonly #parts: { length: number; setAside: number }[] = [];

  private constructor(path: string, handle: FileHandle) {
    this.#path = path;
    this.#handle = handle;
  }

  static async open(path: string): Promise<SpillFile> {
    const own = `${path}-import-${process.pid}-${Math.random().toString(36).slice(2)}`;
    const handle = await open(own, 'wx+', 0o600);
    // A file without a name ends with the process, however that ends. Where a system refuses, it goes when it is closed.
    await rm(own, { force: true }).catch(() => {});
    return new SpillFile(own, handle);
  }

  async write({ rows, setAside }: Run): Promise<void> {
    const texts = Buffer.from(JSON.stringify(setAside));
    for (const column of columnsOf(rows)) await this.#handle.write(bytesOf(column, rows.length));
    await this.#handle.write(texts);
    this.#parts.push({ length: rows.length, setAside: texts.length });
  }

  async *read(): AsyncGenerator<Run> {
    let at = 0;
    const fill = async (bytes: Uint8Array) => {
      for (let done = 0; done < bytes.length; ) {
        const { bytesRead } = await this.#handle.read(bytes, done, bytes.length - done, at);
        if (bytesRead === 0) throw new Error('the file of staged readings ends early');
        done += bytesRead;
        at += bytesRead;
      }
    };
    const rows = makeRows(Math.max(0, ...this.#parts.map(({ length }) => length)));
    for (const part of this.#parts) {
      rows.length = part.length;
      for (const column of columnsOf(rows)) await fill(bytesOf(column, part.length));
      const texts = Buffer.alloc(part.setAside);
      await fill(texts);
      yield { rows, setAside: JSON.parse(texts.toString()) as SetAsideRow[] };
    }
  }

  async close(): Promise<void> {
    await this.#handle.close();
    await rm(this.#path, { force: true });
  }
}

function columnsOf({ unitId, time, values, flowBasis }: ReadingRows) {
  return [unitId, time, ...values, flowBasis];
}

function bytesOf(column: Int32Array | Float64Array | Uint8Array, length: number): Uint8Array {
  return new Uint8Array(column.buffer, column.byteOffset, length * column.BYTES_PER_ELEMENT);
}
