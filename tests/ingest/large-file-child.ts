// Reads one large file, made as it is read, and says in one line of JSON what it took. Run by large-files.test.ts.
import { gzipSync } from 'node:zlib';
import { readReadings } from '@/lib/ingest/read-readings';

const MEBIBYTE = 1_048_576;
const HEADER =
  'tag,time,hot_in[Cel],hot_out[Cel],cold_in[Cel],cold_out[Cel],hot_flow[kg/s],cold_flow[m3/h]\n';
const EXTRA = 'E-102,2026-07-01T00:00:00Z,99,,,,,\n';

/** A mebibyte of readings, a minute apart. */
function rows(write: (time: string, i: number) => string): Buffer {
  const lines: string[] = [];
  for (let size = 0, i = 0; size < MEBIBYTE; i++) {
    const time = new Date(Date.UTC(2026, 0, 1) + i * 60_000).toISOString();
    lines.push(write(time, i));
    size += lines.at(-1)!.length;
  }
  return Buffer.from(lines.join(''));
}

const csvRow = (time: string, i: number) => `E-101,${time},${80 + (i % 97) / 8},60.25,20.5,35.125,12.5,36\n`;
const jsonRow = (time: string, i: number) =>
  `{"tag":"E-101","time":"${time}","hotIn":{"value":${80 + (i % 97) / 8},"unit":"Cel"},"hotFlow":{"value":36,"unit":"m3/h"}}\n`;
const brokenRow = (time: string, i: number) => `E-101,${time},"open,${i},60.25,20.5,35.125,12.5,36\n`;

const KINDS: Record<string, { first: string; piece: () => Buffer; last: string; packed?: true }> = {
  csv: { first: HEADER, piece: () => rows(csvRow), last: EXTRA },
  'one line': { first: `${HEADER}${EXTRA}`, piece: () => Buffer.alloc(MEBIBYTE, '8'), last: `\n${EXTRA}` },
  gzip: { first: HEADER, piece: () => rows(csvRow), last: EXTRA, packed: true },
  'json lines': { first: '', piece: () => rows(jsonRow), last: '' },
  'rows set aside': { first: HEADER, piece: () => rows(brokenRow), last: EXTRA },
};

async function* source(kind: string, mebibytes: number): AsyncGenerator<Uint8Array> {
  const { first, piece, last, packed } = KINDS[kind]!;
  const write = (bytes: Buffer) => (packed ? gzipSync(bytes, { level: 1 }) : bytes);
  const repeated = write(piece());
  if (first !== '') yield write(Buffer.from(first));
  for (let i = 0; i < mebibytes; i++) yield repeated;
  if (last !== '') yield write(Buffer.from(last));
}

const [kind = '', mebibytes = ''] = process.argv.slice(2);
const began = performance.now();
const counts = { readings: 0, setAside: 0, read: 0, sum: 0 };
const options = { knownTags: new Set(['E-101', 'E-102']), mapping: null, timeZone: null };
for await (const chunk of readReadings(source(kind, Number(mebibytes)), options)) {
  counts.readings += chunk.length;
  counts.setAside += chunk.setAside.length;
  counts.read += chunk.read;
  for (let i = 0; i < chunk.length; i++) counts.sum += chunk.hotIn[i]!;
}
const seconds = Math.round((performance.now() - began) / 100) / 10;
// maxRSS is in KiB on every system (libuv's uv_getrusage).
console.log(
  JSON.stringify({ ...counts, seconds, peakMiB: Math.round(process.resourceUsage().maxRSS / 1024) }),
);
