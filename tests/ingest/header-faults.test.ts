import { describe, expect, it } from 'vitest';
import { AppError } from '@/lib/contract/app-error';
import type { ReadingOptions } from '@/lib/ingest/reading-format';
import { readFile } from './read-file';

const TIME = '2026-01-31T10:00:00Z';

async function refusal(file: string | Uint8Array, options: Partial<ReadingOptions> = {}): Promise<AppError> {
  const error = await readFile(file, options).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  expect(error).toBeInstanceOf(AppError);
  return error as AppError;
}

describe('a header that does not say what the columns hold is refused, naming line, field and remedy', () => {
  it.each([
    ['tag,time,hot_in', 'hot_in', 'has no unit; write it in brackets, such as hot_in[Cel]'],
    ['tag,time,hot_flow[]', 'hot_flow[]', 'has no unit'],
    ['tag,time,hot_in[kg/s]', 'hot_in[kg/s]', '"kg/s" is no unit of temperature; use for example Cel'],
    ['tag,time,hot_flow[Cel]', 'hot_flow[Cel]', 'is no unit of mass or volume flow'],
    ['tag,time,hot_dp[furlong]', 'hot_dp[furlong]', 'is no unit of pressure'],
    ['tag,time,hot_in[constructor]', 'hot_in[constructor]', 'is no unit of temperature'],
    ['tag,time,hot_flow[10*400.kg/s]', 'hot_flow[10*400.kg/s]', 'is no unit of mass or volume flow'],
    ['tag,time,hot_flow[[gal_us]/min', 'hot_flow[[gal_us]/min', 'is no unit of mass or volume flow'],
    ['tag,time,hot_inn[Cel]', 'hot_inn[Cel]', 'did you mean "hot_in"?'],
    [
      'tag,time,hot_in[Cel],remark',
      'remark',
      'is no column of a readings file; a mapping can skip it with null',
    ],
    ['tag,time,hot_in[Cel],Hot In[K]', 'Hot In[K]', 'holds the same as a column before it'],
    ['tag,day,hot_in[Cel]', 'day', 'is no column'],
    ['tag,hot_in[Cel]', 'time', 'there is no column of times; name it "time"'],
    ['tag,time', 'header', 'there is no column of readings'],
    [
      'time,hot_in[Cel],hot_out[Cel]',
      'tag',
      'there is no column "tag" that says which unit each row belongs to',
    ],
    ['time,E-104.hot_in[Cel]', 'E-104.hot_in[Cel]', 'there is no unit "E-104"; did you mean "E-101"?'],
    ['time,E-101.hot_in', 'E-101.hot_in', 'has no unit'],
    ['time,TI-1001', 'TI-1001', 'is not in the mapping; add it, with null to skip it'],
    ['time,sensor,value,quality', 'quality', 'is no column of a readings file'],
  ])('%s', async (header, field, message) => {
    const error = await refusal(`${header}\nE-101,${TIME},80\n`);
    expect(error.code).toBe('invalid-input');
    const fault = error.faults.find((found) => found.field === field);
    expect(fault).toMatchObject({ line: 1 });
    expect(fault!.message).toContain(message);
    expect(error.message).toMatch(/^Line 1, "/);
  });

  it('names every column at fault, twenty at most', async () => {
    expect((await refusal(`tag,time,hot_in,hot_out,cold_in[m]\n`)).faults).toHaveLength(3);
    const many = Array.from({ length: 5_000 }, (_, i) => `TI-${i}`).join();
    expect((await refusal(`time,${many}\n`)).faults).toHaveLength(20);
  });

  it('stays quick where no column of a large file is in a large mapping', async () => {
    const mapped = { tag: 'E-101', sensor: 'hotIn', unit: 'Cel' } as const;
    const sensors = Object.fromEntries(
      Array.from({ length: 20_000 }, (_, i) => [`PLANT.UNIT.TI-${i}.PV`, mapped]),
    );
    const many = Array.from({ length: 8_000 }, (_, i) => `PLANT.UNIT.TJ-${i}.PV`).join();
    const started = performance.now();
    const error = await refusal(`time,${many}\n`, { mapping: { sensors } });
    expect(error.faults[0]!.message).toContain('did you mean "PLANT.UNIT.TI-0.PV"?');
    expect(performance.now() - started).toBeLessThan(20_000);
  });

  it('says the line of a header that is not the first', async () => {
    expect((await refusal(`\n\ntag,time,hot_in\n`)).faults[0]!.line).toBe(3);
  });

  it('refuses a mapping that contradicts the header or names a time column that is not there', async () => {
    const mapped = { tag: 'E-101', sensor: 'hotIn', unit: 'Cel' } as const;
    const contradicted = await refusal(`time,TI-1 [degF]\n`, { mapping: { sensors: { 'TI-1': mapped } } });
    expect(contradicted.message).toContain('says degF, the mapping says Cel');
    const timeless = await refusal(`time,TI-1\n`, {
      mapping: { timeColumn: 'When', sensors: { 'TI-1': mapped } },
    });
    expect(timeless.faults.map((fault) => fault.message).join()).toContain('names "When" as time column');
  });

  it('is not misled by a column named like a property of every object', async () => {
    const error = await refusal(`time,constructor,__proto__\n`, { mapping: { sensors: {} } });
    expect(error.faults.map((fault) => fault.field)).toEqual(['constructor', '__proto__']);
  });

  it('refuses a time zone that is none', async () => {
    const error = await refusal(`tag,time,hot_in[Cel]\n`, { timeZone: 'Europe/Atlantis' });
    expect(error).toMatchObject({ code: 'invalid-input', faults: [{ field: 'timeZone' }] });
    expect(error.message).toContain('such as Europe/Lisbon');
  });
});

describe('a file that is no readings file is refused as not readable', () => {
  it.each([
    ['an empty file', '', 'The file is empty'],
    ['a file of blank lines', '\n\n  \n', 'The file is empty'],
    ['a byte-order mark alone', '\ufeff', 'The file is empty'],
    ['a file with NUL bytes', 'tag,time\0\n', 'no text file'],
    ['a file of control characters', '\x01\x02\x03\x04tag', 'no text file'],
    ['the beginning of a workbook', 'PK\x03\x04rest', 'damaged or cut off; save it again and send it whole'],
    ['a JSON list', '[{"tag": "E-101"}]', 'one JSON document per line'],
    ['a header with an open quote', 'tag,"time\nE-101', 'never closed'],
    ['a header with text behind a quote', 'tag,"time"x,hot_in[Cel]\n', 'text behind a closing quote'],
    ['a header longer than the head', 'x'.repeat(300_000), 'longer than 256 KiB'],
  ])('%s', async (_, file, message) => {
    const error = await refusal(file);
    expect(error.code).toBe('not-readable');
    expect(error.message).toContain(message);
    expect(error.faults).toHaveLength(1);
  });
});
