import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { importReportSchema } from '@/lib/contract/import-report';
import { evaluatedReadingSchema } from '@/lib/contract/readings';
import { cyclesResultSchema, dailyResultSchema, unitResultSchema } from '@/lib/contract/results';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { readingsCsv } from '../support/readings-csv';
import { type Run, runCleanby } from '../support/run-cleanby';
import { plainUnit } from '../support/units';

const DAY = 86_400_000;
const END = Date.parse('2026-06-01T00:00:00Z');

let folder: string;
let url: string;
const { fleet, plans } = makeHeldOutFleet(7, 2);
const [first, second] = plans;
const tag = first!.unit.tag;

const file = (name: string, content: string | Uint8Array) => {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
};
const cleanby = (...args: string[]): Promise<Run> => runCleanby(args, url);
const json = async (...args: string[]) => JSON.parse((await cleanby(...args)).stdout);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-cli-'));
  url = `file:${join(folder, 'deep', 'cleanby.db')}`;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// One story, told in order: each step stands on the one before.
describe('the command line, from a datasheet to a clean-by date', { timeout: 240_000 }, () => {
  const record = (index: number) =>
    generateReadings(plans[index]!, {
      start: END - 200 * DAY,
      end: END,
      stepMs: 3_600_000,
      seed: 70 + index,
    });

  it('refuses a fleet file with a faulty unit, whole, naming the field, the reason last', async () => {
    const faulty = {
      ...fleet,
      units: [fleet.units[0], { ...fleet.units[1], area: { value: 3, unit: 'kg' } }],
    };
    const run = await cleanby('register', file('faulty.json', JSON.stringify(faulty)));
    expect(run.code).toBe(1);
    expect(run.stderr).toContain('units[1].area.unit: "kg" is no unit of area');
    expect(run.stderr.trim().split('\n').at(-1)).toBe('Nothing was registered: one field is not valid');
    expect(await json('show', 'fleet', '--json')).toEqual([]);
  });

  it('registers units, and the same file again changes nothing', async () => {
    const path = file('fleet.json', JSON.stringify(fleet));
    expect((await cleanby('register', path)).stderr).toContain('2 units added, 0 updated, 0 unchanged');
    expect((await cleanby('register', path)).stderr).toContain('0 units added, 0 updated, 2 unchanged');
  });

  it('takes in a file with broken rows, those kept aside by line and reason, and nothing the second time', async () => {
    const lines = readingsCsv(first!.unit, record(0).readings).split('\n');
    lines[10] = lines[10]!.replace(/T[^,]*/, 'T25:00:00Z');
    lines[20] = lines[20]!.replace(tag, 'NOT-THERE');
    lines[30] = 'half a li';
    const path = file('first.csv', lines.join('\n'));
    const report = importReportSchema.parse(await json('import', path, '--json'));
    expect(report).toMatchObject({ replaced: 0, unchanged: 0, setAside: 3, units: [tag] });
    expect(report.setAsideByReason).toEqual({
      'time-not-readable': 1,
      'unknown-tag': 1,
      'wrong-number-of-fields': 1,
    });
    expect(report.added).toBe(report.read - 3);
    const again = importReportSchema.parse(await json('import', path, '--json'));
    expect(again).toMatchObject({ added: 0, replaced: 0, unchanged: report.added, units: [] });
  });

  it('takes in a gzip file, and with --check stores nothing', async () => {
    const path = file('second.csv.gz', gzipSync(readingsCsv(second!.unit, record(1).readings)));
    expect(await json('import', path, '--check', '--json')).toMatchObject({ batch: null, setAside: 0 });
    expect((await json('import', path, '--json')).added).toBeGreaterThan(4000);
  });

  it('records a cleaning with its offset and refuses one without', async () => {
    const at = new Date(END - 150 * DAY).toISOString();
    expect(
      (await cleanby('cleaned', tag, '--at', at, '--method', 'circulation', '--cost', '1200')).code,
    ).toBe(0);
    const guess = await cleanby('cleaned', tag, '--at', '2026-01-05 08:00');
    expect(guess.code).toBe(1);
    expect(guess.stderr).toContain('with offset');
  });

  it('analyses and shows results exactly in the form of the contract', async () => {
    expect((await cleanby('analyse')).stderr).toContain('2 units analysed');
    const fleetRows = (await json('show', 'fleet', '--json')) as unknown[];
    expect(fleetRows.map((row) => unitResultSchema.parse(row).tag).sort()).toEqual(
      plans.map(({ unit }) => unit.tag).sort(),
    );
    const unit = unitResultSchema.strict().parse(await json('show', 'unit', tag, '--json'));
    expect(unit.foulingResistance).not.toBeNull();
    // The record falls once more, where it was really cleaned and nobody had recorded that.
    const unrecorded = record(0).truth.cleanings.map(({ at }) => new Date(at).toISOString().slice(0, 10));
    expect(unit.probableCleanings.map(({ day }) => day)).toEqual(unrecorded);
    expect(unit.cycleStart).toBe(unrecorded.at(-1));
    const { cycles } = cyclesResultSchema.strict().parse(await json('show', 'cycles', tag, '--json'));
    expect(cycles.map(({ began }) => began)).toEqual(['record', 'cleaning', 'probable-cleaning']);
    expect(cycles[1]!.from).toBe(new Date(END - 150 * DAY).toISOString().slice(0, 10));
    const daily = dailyResultSchema.parse(await json('show', 'daily', tag, '--json'));
    expect(daily.days.length).toBeGreaterThan(195);
    expect((await cleanby('analyse')).stderr).toContain('0 units analysed, 2 already up to date');
  });

  it('as of a day in the past uses only what was known before it, and comes back to today after', async () => {
    const asOf = new Date(END - 160 * DAY).toISOString();
    await cleanby('analyse', '--as-of', asOf, '--tag', tag);
    const past = unitResultSchema.parse(await json('show', 'unit', tag, '--json'));
    expect(Date.parse(past.asOf!)).toBe(Date.parse(asOf));
    // The cleaning lies after that day: the record's first cycle is still running.
    expect(past.cycleStart! < new Date(END - 190 * DAY).toISOString()).toBe(true);
    const guess = await cleanby('analyse', '--as-of', '2026-01-01T08:00');
    expect(guess.code).toBe(1);
    expect(guess.stderr).toContain('no time with offset');
    await cleanby('analyse');
    const today = unitResultSchema.parse(await json('show', 'unit', tag, '--json'));
    expect(Date.parse(today.asOf!)).toBe(END);
  });

  it('prints tables and CSV for people', async () => {
    expect((await cleanby('show', 'fleet')).stdout).toContain('clean-by P10');
    const csv = (await cleanby('show', 'daily', tag, '--csv')).stdout;
    expect(csv.split('\r\n')[0]).toContain('Rf [m2.K/W]');
    expect((await cleanby('show', 'cycles', tag)).code).toBe(0);
    expect((await cleanby('show', 'health', tag)).code).toBe(0);
    expect((await cleanby('show', 'costs')).code).toBe(0);
  });

  it('evaluates readings without a database', async () => {
    const quantity = (value: number, unit: string) => ({ value, unit });
    const reading = {
      time: '2026-05-04T08:00:00Z',
      hotIn: quantity(50, 'Cel'),
      hotOut: quantity(40, 'Cel'),
      coldIn: quantity(30, 'Cel'),
      coldOut: quantity(40, 'Cel'),
      hotFlow: quantity(10, 'kg/s'),
      coldFlow: quantity(10, 'kg/s'),
    };
    const path = file('one.json', JSON.stringify({ unit: plainUnit('E-1'), readings: [reading] }));
    const evaluated = await json('evaluate', path, '--json');
    expect(evaluatedReadingSchema.strict().array().parse(evaluated)).toHaveLength(1);
    expect(evaluated[0].effectiveness).toBeCloseTo(0.5, 3);
  });

  it('answers wrong usage with 2 and a refusal with 1', async () => {
    expect((await cleanby('frobnicate')).code).toBe(2);
    expect((await cleanby('cleaned', tag)).code).toBe(2);
    expect((await cleanby('show', 'unit', 'NOT-THERE')).code).toBe(1);
    expect((await cleanby('import', join(folder, 'missing.csv'))).code).toBe(1);
    expect((await cleanby('--help')).code).toBe(0);
  });
});
