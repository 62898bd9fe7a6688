import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import readXlsxFile from 'read-excel-file/node';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCleanby } from '../support/run-cleanby';
import { plainFleet } from '../support/units';

const folder = mkdtempSync(join(tmpdir(), 'cleanby-sheet-'));
const url = `file:${join(folder, 'cleanby.db')}`;
const at = (name: string) => join(folder, name);
const run = (...args: string[]) => runCleanby(args, url);

beforeAll(() => writeFileSync(at('fleet.json'), JSON.stringify(plainFleet(['E-101', 'E-102']))));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Each command starts a process of its own: seconds on a busy machine. */
const SLOW = 120_000;

describe('cleanby template and register', { timeout: SLOW }, () => {
  it('write a template that is no fleet yet, and never over a file that is there', async () => {
    const written = await run('template', at('empty.xlsx'));
    expect(written).toMatchObject({ code: 0, stdout: '' });
    const sheets = await readXlsxFile(at('empty.xlsx'));
    expect(sheets.map(({ sheet }) => sheet)).toEqual([
      'Units',
      'Details',
      'Fluids',
      'Polynomials',
      'Supplies',
      'Site',
      'How to fill this in',
    ]);
    const [again, refused] = await Promise.all([
      run('template', at('empty.xlsx')),
      run('register', at('empty.xlsx')),
    ]);
    expect(again.code).toBe(1);
    expect(again.stderr).toContain('is there already');
    expect(refused.code).toBe(1);
    expect(refused.stderr).toContain('Units: has no unit below its headings');
  });

  it('write out what is known and take it back unchanged', async () => {
    expect((await run('register', at('fleet.json'))).stderr).toContain('2 units added');
    expect((await run('template', at('known.xlsx'), '--with-units')).code).toBe(0);
    const taken = await run('register', at('known.xlsx'), '--json');
    expect(taken.code).toBe(0);
    expect(JSON.parse(taken.stdout)).toEqual({
      added: [],
      updated: [],
      unchanged: ['E-101', 'E-102'],
      notes: [],
    });
  });

  it('take a CSV of the sheet of units with decimal commas and name each cell that is wrong', async () => {
    const csv = (area: string) =>
      [
        'Tag;Arrangement;Area [m2];Hot fluid;Cold fluid;Hot inlet temperature (°C);Hot outlet temperature (°C);Cold inlet temperature (°C);Cold outlet temperature (°C);Hot flow [kg/s];Cold flow [kg/s];Limit fouling resistance [m2.K/W]',
        `E-7;counter-current;${area};water;water;50,5;40;30;40,5;10;10;0,0002`,
        '',
      ].join('\r\n');
    writeFileSync(at('wrong.csv'), csv('20 acres'));
    const refused = await run('register', at('wrong.csv'));
    expect(refused.code).toBe(1);
    expect(refused.stderr).toContain('Units!C2 (E-7, Area): "acres" does not measure this');
    writeFileSync(at('right.csv'), csv('20,5'));
    expect((await run('register', at('right.csv'))).stderr).toContain('1 units added');
    const again = await run('register', at('right.csv'), '--json');
    expect(JSON.parse(again.stdout)).toMatchObject({ added: [], updated: [], unchanged: ['E-7'] });
  });

  it('refuse what is no fleet sheet with one line and no stack trace', async () => {
    writeFileSync(at('other.xlsx'), readFileSync(at('fleet.json')).subarray(0, 40));
    const refused = await run('register', at('other.xlsx'));
    expect(refused.code).toBe(1);
    expect(refused.stderr).not.toMatch(/\n\s+at /);
  });
});
