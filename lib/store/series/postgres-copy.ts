import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { Pool, PoolClient } from 'pg';
import { from, to } from 'pg-copy-streams';

/** What every stream of binary COPY begins with: signature, flags, length of an extension. */
const HEADER = Buffer.from('PGCOPY\n\xff\r\n\0\0\0\0\0\0\0\0\0', 'latin1');
const END = -1;
const NULL = -1;
const INT_32_LOW = 2 ** 32;

/** Bytes gathered for one write to the server. */
const PIECE_BYTES = 262_144;

/**
 * Rows of a query in the binary format of COPY: a tenth of the client's work of rows as text, and floats keep every bit. The
 * query takes no parameters: only numbers of our own may be written into it.
 */
export async function copyOut(pool: Pool, select: string): Promise<CopyReader> {
  const client = await pool.connect();
  let broken: Error | undefined;
  try {
    const pieces: Buffer[] = [];
    for await (const piece of client.query(to(`COPY (${select}) TO STDOUT (FORMAT binary)`))) {
      pieces.push(piece as Buffer);
    }
    return new CopyReader(Buffer.concat(pieces));
  } catch (error) {
    broken = error as Error;
    throw error;
  } finally {
    client.release(broken);
  }
}

/** Goes through rows in the binary format of COPY, value by value in the order of the columns. */
export class CopyReader {
  readonly #view: DataView;
  readonly #bytes: Buffer;
  #at = HEADER.length;

  constructor(bytes: Buffer) {
    this.#bytes = bytes;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  /** Rows in all. */
  count(): number {
    let rows = 0;
    let at = HEADER.length;
    for (let fields = this.#view.getInt16(at); fields !== END; fields = this.#view.getInt16(at)) {
      at += 2;
      for (let field = 0; field < fields; field++) at += 4 + Math.max(0, this.#view.getInt32(at));
      rows++;
    }
    return rows;
  }

  /** Goes to the next row; false after the last. */
  next(): boolean {
    const fields = this.#view.getInt16(this.#at);
    this.#at += 2;
    return fields !== END;
  }

  #length(): number {
    const length = this.#view.getInt32(this.#at);
    this.#at += 4;
    return length;
  }

  int32(): number | null {
    if (this.#length() === NULL) return null;
    this.#at += 4;
    return this.#view.getInt32(this.#at - 4);
  }

  /** A whole number of no more than 53 bits. */
  int64(): number | null {
    if (this.#length() === NULL) return null;
    this.#at += 8;
    return this.#view.getInt32(this.#at - 8) * INT_32_LOW + this.#view.getUint32(this.#at - 4);
  }

  /** NaN where there is none. */
  float64(): number {
    if (this.#length() === NULL) return Number.NaN;
    this.#at += 8;
    return this.#view.getFloat64(this.#at - 8);
  }

  /** A view of the same memory. */
  bytes(): Buffer | null {
    const length = this.#length();
    if (length === NULL) return null;
    this.#at += length;
    return this.#bytes.subarray(this.#at - length, this.#at);
  }
}

/** Writes rows in the binary format of COPY, value by value in the order of the columns. */
export class CopyWriter {
  readonly #fields: number;
  /** Bytes of the longest row. */
  readonly #longest: number;
  #piece: Buffer;
  #view: DataView;
  #at = 0;

  /** @param fields columns, each of no more than eight bytes */
  constructor(fields: number) {
    this.#fields = fields;
    this.#longest = 2 + fields * (4 + 8);
    this.#piece = Buffer.allocUnsafeSlow(PIECE_BYTES);
    this.#view = new DataView(this.#piece.buffer);
    this.#at = HEADER.copy(this.#piece);
  }

  row(): void {
    this.#view.setInt16(this.#at, this.#fields);
    this.#at += 2;
  }

  int32(value: number): void {
    this.#view.setInt32(this.#at, 4);
    this.#view.setInt32(this.#at + 4, value);
    this.#at += 8;
  }

  int64(value: number): void {
    this.#view.setInt32(this.#at, 8);
    this.#view.setInt32(this.#at + 4, Math.floor(value / INT_32_LOW));
    this.#view.setUint32(this.#at + 8, value % INT_32_LOW);
    this.#at += 12;
  }

  /** NaN becomes NULL, and −0 becomes 0: SQLite keeps no sign of a zero, and both databases give back the same. */
  float64(value: number): void {
    if (Number.isNaN(value)) {
      this.#view.setInt32(this.#at, NULL);
      this.#at += 4;
      return;
    }
    this.#view.setInt32(this.#at, 8);
    this.#view.setFloat64(this.#at + 4, value + 0);
    this.#at += 12;
  }

  /** What has been gathered, once that is worth a write; else null. The memory is the caller's from then on. */
  piece(): Buffer | null {
    return this.#at + this.#longest > PIECE_BYTES ? this.#cut() : null;
  }

  /** What is left, with the end of the stream. */
  end(): Buffer {
    this.#view.setInt16(this.#at, END);
    this.#at += 2;
    return this.#cut();
  }

  #cut(): Buffer {
    const done = this.#piece.subarray(0, this.#at);
    this.#piece = Buffer.allocUnsafeSlow(PIECE_BYTES);
    this.#view = new DataView(this.#piece.buffer);
    this.#at = 0;
    return done;
  }
}

/** Sends pieces of binary COPY into a table. */
export async function copyIn(client: PoolClient, into: string, pieces: Iterable<Buffer>): Promise<void> {
  await pipeline(Readable.from(pieces), client.query(from(`COPY ${into} FROM STDIN (FORMAT binary)`)));
}
