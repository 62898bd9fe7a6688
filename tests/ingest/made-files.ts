import type { ReadingOptions } from '@/lib/ingest/reading-format';
import { ODD_NUMBERS, ODD_TAGS, ODD_TIMES, ODD_WORDS } from './odd-cells';
import { OPTIONS } from './read-file';

const LINES = 60;

type Random = () => number;
export const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random() * from.length)]!;

const hour = (i: number) => new Date(Date.UTC(2026, 0, 1) + i * 3_600_000).toISOString();

/** How the lines of a layout are made; `odd` says whether a cell is to be one that may not be plain. */
type Layout = {
  name: string;
  header: string;
  line: (random: Random, odd: () => boolean, i: number) => string[];
  delimiter: string;
  time: (i: number) => string;
};

const number = (random: Random, odd: () => boolean, comma = false) => {
  if (odd()) return pick(random, random() < 0.6 ? ODD_NUMBERS : ODD_WORDS);
  const text = (random() * 200 - 20).toFixed(Math.floor(random() * 6));
  return comma ? text.replace('.', ',') : text;
};
export const iso = (i: number) => hour(i).replace('.000', '');
const dotted = (i: number) =>
  `${hour(i).slice(8, 10)}.${hour(i).slice(5, 7)}.${hour(i).slice(0, 4)} ${hour(i).slice(11, 16)}`;

export const LAYOUTS: Layout[] = [
  {
    name: 'canonical',
    delimiter: ',',
    time: iso,
    header: 'tag,time,hot_in[Cel],hot_out[degF],hot_flow[m3/h],note',
    line: (r, odd) => [
      '',
      '',
      number(r, odd),
      number(r, odd),
      number(r, odd),
      pick(r, ['', 'so', 'so "so"', 'Prüfung']),
    ],
  },
  {
    name: 'canonical with decimal comma',
    delimiter: ';',
    time: dotted,
    header: 'tag;time;hot_in[Cel];cold_out[K];cold_flow[t/h]',
    line: (r, odd) => ['', '', number(r, odd, true), number(r, odd, true), number(r, odd, true)],
  },
  {
    name: 'plant-wide',
    delimiter: '\t',
    time: hour,
    header: 'time\tE-101.hot_in[Cel]\tE-101.hot_flow[kg/s]\tE-102.hot_in[Cel]\tE-103.cold_flow[m3/h]',
    line: (r, odd) => ['', number(r, odd), number(r, odd), number(r, odd), number(r, odd)],
  },
  {
    name: 'long',
    delimiter: ',',
    time: (i) => iso(i).replace('Z', '+01:00'),
    header: 'time,sensor,value,unit',
    line: (r, odd) => [
      '',
      pick(r, [
        'E-101.hot_in',
        'E-102.hot_out',
        ...(odd() ? ['TI-1', 'TI-2', 'E-999.hot_in', '', 'E-101.hot_flow'] : []),
      ]),
      number(r, odd),
      odd() ? pick(r, ['', 'K', 'bar', 'kg/s']) : 'Cel',
    ],
  },
  {
    name: 'long with tags',
    delimiter: ',',
    time: (i) => String(Date.parse(hour(i)) / 1000),
    header: 'time[s],tag,sensor,value[Cel]',
    line: (r, odd) => ['', '', pick(r, ['hot_in', 'cold_in']), number(r, odd)],
  },
  {
    name: 'everything in quotes',
    delimiter: ',',
    time: (i) => `"${iso(i)}"`,
    header: '"time","E-101.hot_in[Cel]","E-102.hot_in[Cel]","note"',
    line: (r, odd) => [
      '',
      `"${number(r, odd, true)}"`,
      odd()
        ? pick(r, ['""', '"80"x', '"80" ', ' "80"', '"8"0"', '80,5', '"80'])
        : `"${number(r, odd, true)}"`,
      pick(r, ['"so, so"', '""', '"one ""two"""', 'so']),
    ],
  },
  {
    name: 'date and time of day',
    delimiter: ',',
    time: (i) => hour(i).slice(11, 16),
    header: 'date,time,tag,hot_in[Cel]',
    line: (r, odd, i) => [odd() ? pick(r, ODD_TIMES) : hour(i).slice(0, 10), '', '', number(r, odd)],
  },
];

/** Fills in tag and time, and now and then spoils the line as a whole. */
export function makeFile(layout: Layout, random: Random): string {
  const share = pick(random, [0, 0.02, 0.2]);
  const odd = () => random() < share;
  const names = layout.header.split(layout.delimiter);
  const timeAt = names.findIndex((name) => /^"?time/.test(name));
  const tagAt = names.indexOf('tag');
  const lines = Array.from({ length: LINES }, (_, i) => {
    const cells = layout.line(random, odd, i);
    cells[timeAt] = odd() ? pick(random, ODD_TIMES) : layout.time(i);
    if (tagAt >= 0) cells[tagAt] = pick(random, odd() ? ODD_TAGS : ['E-101', 'E-102', 'Kühler']);
    const line = cells.map((cell) => (odd() ? ` ${cell}  ` : cell)).join(layout.delimiter);
    if (!odd()) return line;
    return pick(random, [
      '',
      ' ',
      `${line}${layout.delimiter}`,
      `${line}${layout.delimiter}x`,
      cells.slice(1).join(layout.delimiter),
      `"${line}`,
      `${line}"`,
      layout.delimiter.repeat(4),
      `${line}\r`,
    ]);
  });
  const end = pick(random, ['\n', '\r\n', '\r']);
  return [layout.header, ...lines].join(end) + pick(random, ['', end]);
}

const ZONED: ReadingOptions = {
  ...OPTIONS,
  knownTags: new Set([...OPTIONS.knownTags, 'Kühler']),
  timeZone: 'Europe/Lisbon',
};
const SENSORS_OF_MAPPING = {
  'TI-1': { tag: 'E-103', sensor: 'hotIn', unit: 'Cel' },
  'TI-2': null,
  note: null,
} as const;
/** What a file is read with: without a zone, with one, with a mapping and status words that are numbers. */
export const OPTION_SETS: ReadingOptions[] = [
  { ...ZONED, timeZone: null, mapping: { sensors: { note: null } } },
  { ...ZONED, mapping: { sensors: { note: null } } },
  { ...ZONED, mapping: { sensors: SENSORS_OF_MAPPING, statusWords: ['-9999', 'away'] } },
];

export const ENCODERS: ((text: string) => Buffer)[] = [
  (text) => Buffer.from(text),
  (text) => Buffer.from(text),
  (text) => Buffer.from(`\ufeff${text}`),
  (text) => Buffer.from(text.replace(/[^\0-\xff]/g, '?'), 'latin1'),
  (text) => Buffer.from(`\ufeff${text}`, 'utf16le'),
];
