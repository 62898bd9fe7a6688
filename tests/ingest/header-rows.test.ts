import { describe, expect, it } from 'vitest';
import type { Mapping } from '@/lib/contract/mapping';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { OPTIONS, readFile, streamOf } from './read-file';

const SENSORS: Mapping['sensors'] = {
  'TI-1001': { tag: 'E-101', sensor: 'hotIn', unit: '°C' },
  'TI-1002': { tag: 'E-101', sensor: 'hotOut', unit: 'degF' },
  'FI-1003': { tag: 'E-101', sensor: 'coldFlow', unit: 'm³/h' },
};
const ROWS = '2026-01-31 10:00;80,5;140;36\n2026-01-31 11:00;81,5;149;72\n';

async function roles(file: string, mapping: Mapping | null = null) {
  const { format } = await previewReadings(streamOf(file), { ...OPTIONS, mapping });
  return format.headerRows.map(({ line, role }) => `${line} ${role}`);
}

async function values(file: string, mapping: Partial<Mapping> = {}) {
  const { rows, setAside } = await readFile(file, {
    mapping: { sensors: SENSORS, ...mapping },
    timeZone: 'Europe/Lisbon',
  });
  return {
    rows: rows.map(({ line, hotIn, hotOut, coldFlow }) => [line, hotIn, hotOut, coldFlow].map(Number)),
    aside: setAside.map(({ line, reason }) => [line, reason]),
  };
}

const read = (first: number) => [
  [first, 80.5, expect.closeTo(60, 10), expect.closeTo(0.01, 12)],
  [first + 1, 81.5, expect.closeTo(65, 10), expect.closeTo(0.02, 12)],
];

describe('a header of several rows', () => {
  it.each<[string, string, string[]]>([
    ['names and units', 'Time;TI-1001;TI-1002;FI-1003\n;°C;degF;m³/h\n', ['1 names', '2 units']],
    ['units above names', ';°C;degF;m3/h\nTime;TI-1001;TI-1002;FI-1003\n', ['1 units', '2 names']],
    [
      'names, descriptions and units with labels',
      'Tag;TI-1001;TI-1002;FI-1003\nDescription;Inlet, hot;Outlet, hot;Flow, cold\nUnits;degC;degF;m3/h\n',
      ['1 names', '2 description', '3 units'],
    ],
    [
      'titles, blank lines, descriptions over names, units in brackets',
      'Plant 7, unit 100\nPeriod;2026-01-01;2026-02-01\n\nTimestamp;Inlet;Outlet;Flow\n;TI-1001;TI-1002;FI-1003\n;[°C];(deg F);[m3/h]\n\n',
      ['1 title', '2 description', '4 description', '5 names', '6 units'],
    ],
    [
      'a title padded with delimiters and a time in it',
      '2026-02-01 08:00;printed;;\n;;;\nDate/Time;TI-1001;TI-1002;FI-1003\n;°C;degF;m3/h\n',
      ['1 title', '3 names', '4 units'],
    ],
    ['a corner without a name', ';TI-1001;TI-1002;FI-1003\n', ['1 names']],
  ])('%s', async (_, header, expected) => {
    const file = header + ROWS;
    expect(await roles(file, { sensors: SENSORS })).toEqual(expected);
    const first = header.split('\n').length;
    expect(await values(file)).toEqual({ rows: read(first), aside: [] });
  });

  it('is found without a mapping by names that look like tags', async () => {
    const file = `Plant report\nTimestamp;Inlet hot;Outlet hot;Flow\n;TI-1001;TI-1002;FI-1003\n;°C;degF;m³/h\n${ROWS}`;
    const { format, faults } = await previewReadings(streamOf(file), OPTIONS);
    expect(format.headerRows).toEqual([
      { line: 1, role: 'title' },
      { line: 2, role: 'description' },
      { line: 3, role: 'names' },
      { line: 4, role: 'units' },
    ]);
    expect(format.columns.map(({ name, use, unit }) => [name, use, unit])).toEqual([
      ['time', 'time', null],
      ['TI-1001', 'unknown', '°C'],
      ['TI-1002', 'unknown', 'degF'],
      ['FI-1003', 'unknown', 'm³/h'],
    ]);
    expect(faults.map(({ field, line }) => [field, line])).toEqual([
      ['TI-1001', 3],
      ['TI-1002', 3],
      ['FI-1003', 3],
    ]);
  });

  it('gives a column its unit where neither its name nor a mapping does', async () => {
    const canonical = `tag;time;hot_in;hot_flow\n;;degF;t/h\nE-101;2026-01-31T10:00Z;212;3,6\n`;
    expect((await readFile(canonical)).rows).toMatchObject([
      { line: 3, hotIn: expect.closeTo(100, 10), hotFlow: 1 },
    ]);
    const wide = `time,E-101.hot_in,E-102.hot_dp\n,K,mbar\n2026-01-31T10:00Z,300,12\n`;
    expect((await readFile(wide)).rows).toMatchObject([
      { hotIn: expect.closeTo(26.85, 10) },
      { hotPressureDrop: expect.closeTo(1200, 9) },
    ]);
  });

  it('is refused where its row of units and its names or the mapping disagree', async () => {
    const file = `Time;TI-1001;TI-1002;FI-1003\n;degF;degF;m3/h\n${ROWS}`;
    await expect(readFile(file, { mapping: { sensors: SENSORS } })).rejects.toMatchObject({
      code: 'invalid-input',
      message: expect.stringContaining('the row of units says degF, the mapping says °C; mend one'),
    });
    const named = `time,E-101.hot_in[Cel]\n,K\n2026-01-31T10:00Z,300\n`;
    await expect(readFile(named)).rejects.toMatchObject({
      message: expect.stringContaining('the header "E-101.hot_in[Cel]" says Cel, the row of units says K'),
    });
  });

  it('is overridden by the lines that a mapping names', async () => {
    const file = `Time;A1;A2;A3\nTime;TI-1001;TI-1002;FI-1003\nsaid;K;K;t/h\nmeant;°C;degF;m3/h\n${ROWS}`;
    const mapping = { headerLine: 2, unitLine: 4, timeColumn: 'Time' };
    expect(await roles(file, { sensors: SENSORS, ...mapping })).toEqual([
      '1 description',
      '2 names',
      '3 description',
      '4 units',
    ]);
    expect(await values(file, mapping)).toEqual({ rows: read(5), aside: [] });
  });

  it('a line that a mapping names and that is not there is refused', async () => {
    for (const wrong of [{ headerLine: 400 }, { unitLine: 3 }]) {
      await expect(
        readFile('time,TI-1001\n2026-01-31T10:00Z,80\n', { mapping: { sensors: SENSORS, ...wrong } }),
      ).rejects.toMatchObject({ code: 'invalid-input', faults: [{ field: Object.keys(wrong)[0] }] });
    }
  });

  it('never takes a row that holds a number or a time for itself', async () => {
    const file = `Time;TI-1001;TI-1002;FI-1003\n;°C;degF;m3/h\nmaximum;200;300;90\n31.01.2026 09:00;79;;\nsoon;Bad;7;\n${ROWS}`;
    expect(await values(file)).toEqual({
      rows: read(6),
      aside: [
        [3, 'time-not-readable'],
        [4, 'time-not-readable'],
        [5, 'time-not-readable'],
      ],
    });
    const canonical = `tag,time,hot_in[Cel]\nE-101,someday,Bad\nE-101,2026-01-31T10:00Z,80\n`;
    expect((await readFile(canonical)).setAside).toMatchObject([{ line: 2, reason: 'time-not-readable' }]);
  });

  it('is the first row where no time is in sight, and every row below it is said to be unreadable', async () => {
    const file = `Time;TI-1001;TI-1002;FI-1003\n31.13.2026 10:00;80,5;140;36\n31.13.2026 11:00;81,5;149;72\n`;
    expect((await values(file)).aside).toEqual([
      [2, 'time-not-readable'],
      [3, 'time-not-readable'],
    ]);
  });

  it('keeps a file whose only rows have status words', async () => {
    const file = `time,E-101.hot_in[Cel],E-102.hot_in[Cel]\n2026-01-31T10:00Z,Bad,Bad\n`;
    expect((await readFile(file)).setAside).toMatchObject([{ line: 2, reason: 'no-values' }]);
  });

  it('may hold a description broken over lines', async () => {
    const file = `Time;TI-1001;TI-1002;FI-1003\n;"Inlet\nhot";"Outlet\nhot";Flow\n;°C;degF;m3/h\n${ROWS}`;
    expect(await roles(file, { sensors: SENSORS })).toEqual(['1 names', '2 description', '5 units']);
    expect(await values(file)).toEqual({ rows: read(6), aside: [] });
  });
});
