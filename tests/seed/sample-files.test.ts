import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mappingSchema } from '@/lib/contract/mapping';
import { readReadings } from '@/lib/ingest/read-readings';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import { makeSampleFiles, writeSampleFiles } from '@/seed/sample-files';

const END = Date.parse('2026-11-25T08:00:00Z');
const samples = makeSampleFiles(END);
const knownTags = new Set(['SC-152', 'LC-172']);

async function* bytes(text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text);
}

async function read(text: string, mapping: typeof samples.mapping | null): Promise<ReadingChunk[]> {
  const chunks: ReadingChunk[] = [];
  for await (const chunk of readReadings(bytes(text), { knownTags, mapping, timeZone: null }))
    chunks.push(chunk);
  return chunks;
}

const total = (chunks: ReadingChunk[], of: (chunk: ReadingChunk) => number) =>
  chunks.reduce((sum, chunk) => sum + of(chunk), 0);

describe('the example files', () => {
  it('canonical: a week of one unit, each of its six broken rows set aside for a reason of its own', async () => {
    const chunks = await read(samples.canonical.text, null);
    const reasons = chunks.flatMap(({ setAside }) => setAside.map(({ reason }) => reason));
    expect(samples.brokenRows).toBe(6);
    expect([...reasons].sort()).toEqual([
      'no-values',
      'time-not-readable',
      'time-without-zone',
      'unknown-tag',
      'value-not-a-number',
      'wrong-number-of-fields',
    ]);
    const rows = samples.canonical.text.trimEnd().split('\n').length - 1;
    expect(total(chunks, ({ read: count }) => count)).toBe(rows);
    expect(rows).toBeGreaterThan(150);
  });

  it('long: three days by instrument name, read whole with its mapping', async () => {
    expect(mappingSchema.parse(samples.mapping)).toEqual(samples.mapping);
    const chunks = await read(samples.long.text, samples.mapping);
    expect(total(chunks, ({ setAside }) => setAside.length)).toBe(0);
    expect(total(chunks, ({ length }) => length)).toBeGreaterThan(60);
  });

  it('are written to a folder as they are made', () => {
    const folder = mkdtempSync(join(tmpdir(), 'samples-'));
    try {
      const paths = writeSampleFiles(folder, END);
      expect(paths).toHaveLength(3);
      expect(readFileSync(paths[0]!, 'utf8')).toBe(samples.canonical.text);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
