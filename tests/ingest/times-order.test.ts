import { describe, expect, it } from 'vitest';
import type { AppError } from '@/lib/contract/app-error';
import type { Mapping } from '@/lib/contract/mapping';
import { previewReadings } from '@/lib/ingest/preview-readings';
import { OPTIONS, readFile, streamOf } from './read-file';

function fileOf(times: string[], header = 'tag;time;hot_in[Cel]'): string {
  return [header, ...times.map((time, i) => `E-101;${time};${i}`), ''].join('\n');
}

async function found(file: string, mapping: Mapping | null = null) {
  const { format, faults } = await previewReadings(streamOf(file), { ...OPTIONS, mapping, timeZone: 'UTC' });
  return { ...format.times, faults };
}

async function refusal(file: string): Promise<AppError> {
  return readFile(file, { timeZone: 'UTC' }).then(
    () => expect.fail('it was read'),
    (error) => error,
  );
}

const named = (timeFormat: Mapping['timeFormat']): Mapping => ({ sensors: {}, timeFormat });

describe('the order of day and month', () => {
  it.each([
    ['a first number above 12', ['05/06/2026 01:00', '13/06/2026 02:00'], 'day-first', '"13/06/2026 02:00"'],
    [
      'a second number above 12',
      ['05/06/2026 01:00', '06/13/2026 02:00'],
      'month-first',
      '"06/13/2026 02:00"',
    ],
    ['points', ['05.06.2026 01:00', '05.06.2026 02:00'], 'day-first', 'points stand between'],
    [
      'a second number above 12 between points',
      ['05.06.2026 01:00', '06.13.2026 02:00'],
      'month-first',
      'can only',
    ],
    [
      'months by name',
      ['05-Jun-26 01:00', '05-Jun-26 02:00'],
      'day-first',
      'by name; years of two digits are 1970',
    ],
    ['the year first', ['2026/05/06 01:00'], 'iso', ''],
    [
      'steps by the day',
      ['05/06/2026 22:00', '05/06/2026 23:00', '06/06/2026 00:00', '06/06/2026 01:00'],
      'day-first',
      'at one distance',
    ],
    [
      'steps by the month',
      ['06/05/2026 22:00', '06/05/2026 23:00', '06/06/2026 00:00', '06/06/2026 01:00'],
      'month-first',
      'at one distance',
    ],
    ['what most rows look like', ['2026-05-06 01:00', '2026-05-06 02:00', '05/06/2026 03:00'], 'iso', ''],
  ])('is shown by %s', async (_, times, format, evidence) => {
    const shown = await found(fileOf(times));
    expect(shown).toMatchObject({ format, faults: [] });
    expect(shown.evidence).toContain(evidence);
  });

  it.each([
    [
      'nothing shows it',
      ['05/06/2026 01:00', '05/06/2026 02:00', '05/06/2026 03:00', '05/06/2026 04:00'],
      'may begin',
    ],
    ['steps suit both', ['01/07/2026 01:00', '01/08/2026 01:00', '01/09/2026 01:00'], 'may begin'],
    [
      'steps suit neither',
      ['05/06/2026 01:00', '05/06/2026 02:10', '06/06/2026 01:00', '06/06/2026 09:00'],
      'may begin',
    ],
    ['rows show both', ['13/06/2026 01:00', '06/13/2026 01:00'], 'begins with the day'],
  ])(
    'is not guessed where %s: the file is refused as a whole, naming the remedy',
    async (_, times, message) => {
      const error = await refusal(fileOf(times));
      expect(error).toMatchObject({ code: 'invalid-input', faults: [{ field: 'time', line: 1 }] });
      expect(error.message).toContain(message);
      for (const remedy of [
        'import screen',
        '--time-format',
        'timeFormat in the mapping',
        'day-first or month-first',
      ])
        expect(error.message).toContain(remedy);
      expect(await found(fileOf(times))).toMatchObject({ format: null, faults: [{ field: 'time' }] });
    },
  );

  it('is that of the mapping, against all other evidence', async () => {
    const file = fileOf(['05/06/2026 01:00', '05/06/2026 02:00']);
    const read = async (mapping: Mapping) =>
      (await readFile(file, { timeZone: 'UTC', mapping })).rows.map(({ time }) => time.slice(0, 13));
    expect(await read(named('day-first'))).toEqual(['2026-06-05T01', '2026-06-05T02']);
    expect(await read(named('month-first'))).toEqual(['2026-05-06T01', '2026-05-06T02']);
    const points = await readFile(fileOf(['05.06.2026 01:00']), {
      timeZone: 'UTC',
      mapping: named('month-first'),
    });
    expect(points.rows[0]!.time).toBe('2026-05-06T01:00:00.000Z');
    expect(await found(file, named('day-first'))).toMatchObject({ evidence: 'as chosen' });
  });

  it('is kept to: a later row that contradicts it is set aside with line, field and remedy', async () => {
    const hours = Array.from({ length: 12_000 }, (_, i) =>
      new Date(Date.UTC(2026, 0, 1) + i * 3_600_000).toISOString(),
    );
    const times = hours.map(
      (iso) => `${iso.slice(8, 10)}/${iso.slice(5, 7)}/${iso.slice(0, 4)} ${iso.slice(11, 16)}`,
    );
    times[11_000] = '10/25/2026 02:30';
    const { rows, setAside } = await readFile(fileOf(times), { timeZone: 'UTC' });
    expect(rows).toHaveLength(11_999);
    expect(rows.map(({ time }) => time)).toEqual(hours.filter((_, i) => i !== 11_000));
    expect(setAside).toMatchObject([{ line: 11_002, field: 'time', reason: 'time-not-readable' }]);
    expect(setAside[0]!.message).toContain('has no month 25');
    expect(setAside[0]!.message).toContain('timeFormat: month-first');
  });

  it('leaves times with the year first as they are', async () => {
    const times = ['13/06/2026 01:00', '2026-06-13T02:00Z', '14/06/2026 01:00'];
    const { rows } = await readFile(fileOf(times), { timeZone: 'UTC' });
    expect(rows[1]!.time).toBe('2026-06-13T02:00:00.000Z');
  });

  it('makes rows without year first unreadable where the mapping says ISO', async () => {
    const { setAside } = await readFile(fileOf(['13/06/2026 01:00']), {
      mapping: named('iso'),
      timeZone: 'UTC',
    });
    expect(setAside[0]!.message).toContain(
      'name the format of the file as timeFormat: day-first or month-first',
    );
  });
});

describe('plain numbers as times', () => {
  it.each([
    ['epoch', '1793000000', 'epoch-seconds'],
    ['unix_time', '1793000000.5', 'epoch-seconds'],
    ['time[s]', '1793000000', 'epoch-seconds'],
    ['timestamp_ms', '1793000000000', 'epoch-milliseconds'],
    ['time[ms]', '1793000000000', 'epoch-milliseconds'],
  ])('in "%s" are %s since 1970', async (name, number, format) => {
    const file = fileOf([number, number.replace('179', '178')], `tag;${name};hot_in[Cel]`);
    expect(await found(file)).toMatchObject({ format, faults: [] });
    const { rows } = await readFile(file);
    expect(Date.parse(rows[0]!.time)).toBe(
      format === 'epoch-seconds' ? Number(number) * 1000 : Number(number),
    );
  });

  it.each([
    ['time', '1793000000'],
    ['time', '46320.104'],
    ['time[ms]', '1793000000'],
    ['time[s]', '15'],
  ])('in "%s" such as %s are refused until somebody says what they count', async (name, number) => {
    const error = await refusal(fileOf([number, number], `tag;${name};hot_in[Cel]`));
    expect(error).toMatchObject({ code: 'invalid-input', faults: [{ field: name }] });
    expect(error.message).toContain('excel-serial, epoch-seconds or epoch-milliseconds');
  });

  it('out of the range of what they count are set aside', async () => {
    const options = { mapping: named('epoch-seconds') };
    const { rows, setAside } = await readFile(
      fileOf(['1793000000', '1793000000000', '7', '-3', 'soon']),
      options,
    );
    expect(rows).toHaveLength(1);
    expect(setAside.map(({ line }) => line)).toEqual([3, 4, 5, 6]);
    expect(setAside[0]!.message).toContain('seconds since 1970');
  });
});

describe('date and time in columns of their own', () => {
  const ROWS = '25.10.2026;12:30:15;80,5\n26.10.2026;2:30;81,5\n';
  const TIMES = ['2026-10-25T12:30:15.000Z', '2026-10-26T02:30:00.000Z'];

  it.each([
    ['Date;Time;E-101.hot_in[Cel]'],
    ['Datum;Uhrzeit;E-101.hot_in[Cel]'],
    ['Export of the plant\n\nDate;Time;E-101.hot_in\n;;°C'],
  ])('are read together below %s', async (header) => {
    const { rows, setAside } = await readFile(`${header}\n${ROWS}`, { timeZone: 'UTC' });
    expect(setAside).toEqual([]);
    expect(rows.map(({ time }) => time)).toEqual(TIMES);
    expect(rows[0]).toMatchObject({ hotIn: 80.5 });
  });

  it('are found by the mapping whatever they are called', async () => {
    const mapping: Mapping = { sensors: {}, dateColumn: 'D', timeColumn: 'T', timeFormat: 'day-first' };
    const { rows } = await readFile(`D;T;E-101.hot_in[Cel]\n${ROWS}`, { timeZone: 'UTC', mapping });
    expect(rows.map(({ time }) => time)).toEqual(TIMES);
    await expect(
      readFile(`D;T;E-101.hot_in[Cel]\n${ROWS}`, { mapping: { ...mapping, dateColumn: 'E' } }),
    ).rejects.toMatchObject({
      code: 'invalid-input',
      faults: [
        { field: 'D' },
        { field: 'date', message: expect.stringContaining('names "E" as column of dates') },
      ],
    });
  });

  it('are refused where the dates do not show their order', async () => {
    const error = await refusal('Date,Time,E-101.hot_in[Cel]\n05/06/2026,01:00,80\n05/06/2026,02:00,81\n');
    expect(error).toMatchObject({ code: 'invalid-input', faults: [{ field: 'Date, Time' }] });
  });

  it('may be ISO 8601 in two', async () => {
    const { rows } = await readFile(
      'Date,Time,E-101.hot_in[Cel]\n2026-10-25,12:30:15,80\n2026-10-26,02:30,81\n',
      { timeZone: 'UTC' },
    );
    expect(rows.map(({ time }) => time)).toEqual(TIMES);
  });

  it('have a row with one of them missing set aside under both names', async () => {
    const { setAside } = await readFile(`Date;Time;E-101.hot_in[Cel]\n${ROWS}27.10.2026;;82\n;02:30;83\n`, {
      timeZone: 'UTC',
    });
    expect(setAside).toMatchObject([
      { line: 4, field: 'Date, Time', reason: 'time-not-readable' },
      { line: 5, field: 'Date, Time', reason: 'time-not-readable' },
    ]);
  });

  it('leave a column of dates alone that stands beside whole times', async () => {
    const file = 'Date;Time;E-101.hot_in[Cel]\n25.10.2026;25.10.2026 12:30:15;80,5\n';
    const mapping: Mapping = { sensors: { Date: null } };
    const { rows } = await readFile(file, { timeZone: 'UTC', mapping });
    expect(rows.map(({ time }) => time)).toEqual(TIMES.slice(0, 1));
  });

  it('may be one, called Date', async () => {
    const { rows } = await readFile('Date;E-101.hot_in[Cel]\n25.10.2026 12:30:15;80,5\n', {
      timeZone: 'UTC',
    });
    expect(rows.map(({ time }) => time)).toEqual(TIMES.slice(0, 1));
  });
});
