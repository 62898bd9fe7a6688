import { describe, expect, it } from 'vitest';
import { readReadings } from '@/lib/ingest/read-readings';
import { OPTIONS, readFile, streamOf } from './read-file';

const TIME = '2026-01-31T10:00:00Z';
const HEADER = 'tag,time,hot_in[Cel],hot_out[Cel]';

async function statusOf(file: string, options = {}) {
  const byWord: Record<string, number> = {};
  let total = 0;
  for await (const { statusCells } of readReadings(streamOf(file), { ...OPTIONS, ...options })) {
    total += statusCells.total;
    for (const [word, count] of statusCells.byWord) byWord[word] = (byWord[word] ?? 0) + count;
  }
  return { total, byWord };
}

describe('a status word in the place of a value', () => {
  it.each([
    ...[
      'Bad',
      'BAD',
      'No Data',
      'no_data',
      'NoData',
      'I/O Timeout',
      'Bad Input',
      'Scan Off',
      'Comm Fail',
      'NaN',
    ],
    ...[
      '#N/A',
      '-',
      '–',
      '---',
      'null',
      'NULL',
      '(null)',
      'Shutdown',
      'Out-of-Service',
      '[Bad]',
      '"Bad"',
      '#####',
    ],
    ...['#DIV/0!', '***', '???', 'Infinity', '1.#QNAN', 'n/a', 'Off-line', '<No Value>', '  Calc   Failed '],
  ])('%s: the cell was not measured, and the rest of the row goes in', async (word) => {
    const cell = word.includes('"') ? `"${word.replaceAll('"', '""')}"` : word;
    const { rows, setAside } = await readFile(`${HEADER}\nE-101,${TIME},80,${cell}\n`);
    expect(setAside).toEqual([]);
    expect(rows).toEqual([{ tag: 'E-101', time: '2026-01-31T10:00:00.000Z', line: 2, hotIn: 80 }]);
  });

  it('is counted by word, whatever its case', async () => {
    const rows = ['Bad,80', '80,BAD', 'bad,No Data', '70,60', 'I/O Timeout,Open'];
    const file = [HEADER, ...rows.map((row, i) => `E-101,2026-01-31T1${i}:00Z,${row}`)].join('\n');
    expect(await statusOf(file)).toEqual({ total: 5, byWord: { bad: 3, 'no data': 1, 'i/o timeout': 1 } });
  });

  it('tells twenty words of a file at most, and counts them all', async () => {
    const statusWords = Array.from({ length: 30 }, (_, i) => `state ${i}`);
    const file = [HEADER, ...statusWords.map((word) => `E-101,${TIME},80,${word}`)].join('\n');
    const { total, byWord } = await statusOf(file, { mapping: { sensors: {}, statusWords } });
    expect(total).toBe(30);
    expect(Object.keys(byWord)).toHaveLength(20);
  });

  it('leaves nothing of a row that has nothing else: it is set aside as one without values', async () => {
    const { rows, setAside } = await readFile(`${HEADER}\nE-101,${TIME},Bad,-\n`);
    expect(rows).toEqual([]);
    expect(setAside).toMatchObject([{ line: 2, reason: 'no-values' }]);
  });

  it('costs a plant-wide row its own cell and no other', async () => {
    const file = `time,E-101.hot_in[Cel],E-101.hot_out[Cel],E-102.hot_in[Cel]\n${TIME},Bad,60,No Data\n`;
    const { rows, setAside } = await readFile(file);
    expect(setAside).toEqual([]);
    expect(rows).toMatchObject([{ tag: 'E-101', hotOut: 60 }]);
    expect(rows[0]).not.toHaveProperty('hotIn');
  });

  it('makes a row of a long file one without a value, and says which word it was', async () => {
    const file = `time,sensor,value,unit\n${TIME},E-101.hot_in,Bad,Cel\n${TIME},E-101.hot_out,60,Cel\n`;
    const { rows, setAside } = await readFile(file);
    expect(rows).toMatchObject([{ hotOut: 60 }]);
    expect(setAside).toMatchObject([
      { line: 2, reason: 'no-values', message: expect.stringContaining('"Bad"') },
    ]);
    expect(await statusOf(file)).toEqual({ total: 1, byWord: { bad: 1 } });
  });

  it('may be one of the mapping, also a number that stands for none', async () => {
    const mapping = { sensors: {}, statusWords: ['Valve shut', '-9999', '1'] };
    const rows = ['valve  SHUT,80', '-9999,81', '-9999.0,82', '1,83', '11,84'];
    const file = [HEADER, ...rows.map((row, i) => `E-101,2026-01-31T1${i}:00Z,${row}`)].join('\n');
    const { rows: read } = await readFile(file, { mapping });
    expect(read.map(({ hotIn, hotOut }) => [hotIn, hotOut])).toEqual([
      [undefined, 80],
      [undefined, 81],
      [-9999, 82],
      [undefined, 83],
      [11, 84],
    ]);
    const { setAside } = await readFile(file);
    expect(setAside).toMatchObject([{ line: 2, reason: 'value-not-a-number' }]);
  });

  it('is no word that only begins like one, and never a number', async () => {
    for (const cell of ['Bad 80', 'badly', 'nullable', '-5', '5-', 'no', 'NaN5']) {
      const { rows, setAside } = await readFile(`${HEADER}\nE-101,${TIME},80,${cell}\n`);
      if (cell === '-5') expect(rows).toMatchObject([{ hotOut: -5 }]);
      else expect(setAside).toMatchObject([{ reason: 'value-not-a-number', field: 'hot_out' }]);
    }
  });
});
