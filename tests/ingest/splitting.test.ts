import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { SetAsideRow } from '@/lib/contract/import-report';
import { readReadings } from '@/lib/ingest/read-readings';
import { HEADER, OPTIONS, type Row, rowsOf, seeded, streamOf } from './read-file';

const SEED = 4_711;
const SPLITS = 200;
const PLACES = 200;
/** Each piece of a compressed file is a turn of the decompressor's thread, so fewer of them. */
const PLACES_COMPRESSED = 20;

/** Some 300 rows with everything that a cut could damage: quotes, wide characters, bad rows, mixed line ends. */
function trickyFile(): string {
  const random = seeded(SEED);
  const rows = Array.from({ length: 300 }, (_, i) => {
    const time = new Date(Date.UTC(2026, 0, 1) + i * 600_000).toISOString();
    const value = (random() * 100).toFixed(3);
    return [
      `E-101,${time},${value},60,20,35,12,36,40,32`,
      `"E-102","${time}",${value},,,,,,,`,
      `Übergröße → 𝛥T,${time},${value},,,,,,,`,
      `E-101,"${time},${value},,,,,,,`,
      '',
    ][Math.floor(random() * 5)]!;
  });
  return [HEADER, ...rows].join('\r\n').replaceAll('\r\n\r\n', '\n\r\n');
}

type Chunk = { rows: Row[]; setAside: SetAsideRow[]; read: number; bases: number[] };

async function chunksOf(pieces: Uint8Array[]): Promise<Chunk[]> {
  const chunks: Chunk[] = [];
  for await (const chunk of readReadings(streamOf(...pieces), OPTIONS)) {
    const bases = [...chunk.flowBasis.subarray(0, chunk.length)];
    chunks.push({ rows: rowsOf(chunk), setAside: chunk.setAside, read: chunk.read, bases });
  }
  return chunks;
}

/** The bytes cut at random places; places may coincide, which gives empty pieces. */
function cut(bytes: Uint8Array, places: number, random: () => number): Uint8Array[] {
  const at = Array.from({ length: places }, () => Math.floor(random() * (bytes.length + 1))).sort(
    (a, b) => a - b,
  );
  return [0, ...at].map((from, i) => bytes.subarray(from, at[i] ?? bytes.length));
}

describe(`a file cut at random places, ${SPLITS} times over, gives the same chunks (seed ${SEED})`, {
  timeout: 180_000,
}, () => {
  const text = trickyFile();
  it.each([
    ['UTF-8', PLACES, Buffer.from(text)],
    ['UTF-16 LE', PLACES, Buffer.from(`\ufeff${text}`, 'utf16le')],
    ['UTF-16 BE', PLACES, Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
    ['Latin-1', PLACES, Buffer.from(text.replace(/[→𝛥]/gu, '°'), 'latin1')],
    ['gzip', PLACES_COMPRESSED, gzipSync(text)],
  ])('as %s, at %d places', async (_, places, bytes) => {
    const whole = await chunksOf([bytes]);
    expect(whole[0]!.rows.length).toBeGreaterThan(80);
    expect(whole[0]!.setAside.length).toBeGreaterThan(80);
    const random = seeded(SEED);
    for (let split = 0; split < SPLITS; split++) {
      expect(await chunksOf(cut(bytes, places, random))).toEqual(whole);
    }
  });

  it('and byte by byte', async () => {
    const bytes = Buffer.from(text);
    const single = Array.from(bytes, (_, i) => bytes.subarray(i, i + 1));
    expect(await chunksOf(single)).toEqual(await chunksOf([bytes]));
  });

  it('and over several chunks and past the head', async () => {
    const lines = Array.from(
      { length: 20_000 },
      (_, i) => `E-101,2026-01-01T00:00:00Z,${i % 97 === 0 ? 'Bad' : i}`,
    );
    const bytes = Buffer.from(['tag,time,hot_in[Cel]', ...lines].join('\n'));
    const whole = await chunksOf([bytes]);
    expect(whole).toHaveLength(3);
    const random = seeded(SEED);
    for (let split = 0; split < 5; split++) expect(await chunksOf(cut(bytes, PLACES, random))).toEqual(whole);
  });
});
