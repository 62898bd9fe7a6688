import { Readable } from 'node:stream';
import { createGzip } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readReadings } from '@/lib/ingest/read-readings';
import { HEADER, OPTIONS, readFile, streamOf } from './read-file';

const MEBIBYTE = 1_048_576;
/** Memory one file may take whatever is in it [bytes]; the promise for the whole process is 512 MiB. */
const ALLOWED_GROWTH = 256 * MEBIBYTE;

/** A file with one line of so many mebibytes, made as it is read. */
async function* withLongLine(before: string, mebibytes: number, after: string) {
  yield Buffer.from(before);
  const piece = Buffer.alloc(MEBIBYTE, 'x');
  for (let i = 0; i < mebibytes; i++) yield piece;
  yield Buffer.from(after);
}

/** Most memory in use while reading beyond that before [bytes]. */
async function growth(read: (watch: () => void) => Promise<void>): Promise<number> {
  const before = process.memoryUsage.rss();
  let most = before;
  await read(() => {
    most = Math.max(most, process.memoryUsage.rss());
  });
  return most - before;
}

async function* watched(source: AsyncIterable<Uint8Array>, watch: () => void) {
  for await (const piece of source) {
    watch();
    yield piece;
  }
}

describe('memory stays bounded', () => {
  const row = 'E-101,2026-01-31T10:00Z,80,,,,,,,\n';

  it('a line of 1 GiB is set aside and the rows around it are read', { timeout: 180_000 }, async () => {
    const grown = await growth(async (watch) => {
      const source = withLongLine(`${HEADER}\n${row}`, 1024, `\n${row}`);
      const { rows, setAside } = await readFile(watched(source, watch));
      expect(rows.map((read) => read.line)).toEqual([2, 4]);
      expect(setAside).toMatchObject([{ line: 3, reason: 'line-too-long', text: 'x'.repeat(500) }]);
    });
    expect(grown).toBeLessThan(ALLOWED_GROWTH);
  });

  it('a header of 1 GiB is refused after its first 256 KiB', async () => {
    let pieces = 0;
    const source = watched(withLongLine('', 1024, '\n'), () => pieces++);
    await expect(readFile(source)).rejects.toMatchObject({ code: 'not-readable' });
    expect(pieces).toBeLessThan(5);
  });

  it('a small gzip file that unpacks to 256 MiB in one line is set aside', { timeout: 120_000 }, async () => {
    const packed: Buffer[] = [];
    const gzip = Readable.from(withLongLine(`${HEADER}\n${row}`, 256, `\n${row}`)).pipe(
      createGzip({ level: 1 }),
    );
    for await (const piece of gzip) packed.push(piece);
    const grown = await growth(async (watch) => {
      const { rows, setAside } = await readFile(watched(streamOf(...packed), watch));
      expect(rows).toHaveLength(2);
      expect(setAside).toMatchObject([{ reason: 'line-too-long' }]);
    });
    expect(grown).toBeLessThan(ALLOWED_GROWTH);
  });

  it('texts of rows set aside do not hold the long lines they were cut from', {
    timeout: 120_000,
  }, async () => {
    async function* manyLongLines() {
      yield Buffer.from(`${HEADER}\n`);
      for (let i = 0; i < 400; i++)
        yield Buffer.concat([Buffer.alloc(MEBIBYTE - 1, 97 + (i % 26)), Buffer.from('\n')]);
    }
    const grown = await growth(async (watch) => {
      const { setAside } = await readFile(watched(manyLongLines(), watch));
      expect(setAside).toHaveLength(400);
      watch();
    });
    expect(grown).toBeLessThan(ALLOWED_GROWTH);
  });
});

describe('the source', () => {
  function closable(text: string) {
    const state = { closed: false };
    const source = (async function* () {
      try {
        yield Buffer.from(text);
        for (;;) yield Buffer.from('E-101,2026-01-31T10:00Z,80\n'.repeat(10_000));
      } finally {
        state.closed = true;
      }
    })();
    return { source, state };
  }

  it('is let go when the reader has had enough', async () => {
    const { source, state } = closable('tag,time,hot_in[Cel]\n');
    for await (const chunk of readReadings(source, OPTIONS)) if (chunk.length > 0) break;
    expect(state.closed).toBe(true);
  });

  it('is let go when the file is refused', async () => {
    for (const text of ['tag,time,hot_in\n', 'tag,time\0\n', '\x1f\x8bdamaged']) {
      const { source, state } = closable(text);
      await expect(readFile(source)).rejects.toThrow();
      expect(state.closed).toBe(true);
    }
  });

  it('may fail, and its own error is passed on', async () => {
    async function* failing(first: Uint8Array) {
      yield first;
      throw new Error('disk gone');
    }
    const gzipStart = Uint8Array.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 0]);
    await expect(readFile(failing(Buffer.from(HEADER)))).rejects.toThrow('disk gone');
    await expect(readFile(failing(gzipStart))).rejects.toThrow('disk gone');
  });
});
