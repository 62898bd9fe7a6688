import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fleetCostsSchema } from '@/lib/contract/costs';
import { plannedFleet } from '../support/planned-fleet';
import { runCleanby } from '../support/run-cleanby';
import { temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let folder: string;
const cleanby = (...args: string[]) => runCleanby(args, `file:${join(folder, 'cleanby.db')}`);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-costs-'));
  const path = join(folder, 'fleet.json');
  writeFileSync(path, JSON.stringify(plainFleet(['E-1', 'E-2'])));
  expect((await cleanby('register', path)).code).toBe(0);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('cleanby show costs', { timeout: 120_000 }, () => {
  it('prints the document of the contract, with why a unit is not counted', async () => {
    const { stdout } = await cleanby('show', 'costs', '--json', '--from', '2026-01-01', '--to', '2026-01-31');
    const costs = fleetCostsSchema.strict().parse(JSON.parse(stdout));
    expect([costs.from, costs.to]).toEqual(['2026-01-01', '2026-01-31']);
    expect(costs.units.map(({ tag, reason }) => [tag, reason])).toEqual([
      ['E-1', 'never-analysed'],
      ['E-2', 'never-analysed'],
    ]);
  });

  it('prints a table, and the file that the page offers', async () => {
    expect((await cleanby('show', 'costs', '--period', 'last-quarter')).stdout).toContain(
      'not counted because',
    );
    const { stdout } = await cleanby('show', 'costs', '--csv');
    expect(stdout.split('\r\n')[0]).toMatch(/^kind,tag,service,site,effect/);
  });

  it('refuses a period or a site that is not there, the reason last', async () => {
    const period = await cleanby('show', 'costs', '--period', 'soon');
    expect(period.code).toBe(1);
    expect(period.stderr).toContain('period');
    const site = await cleanby('show', 'costs', '--site', 'Nowhere');
    expect(site.code).toBe(1);
    expect(site.stderr.trim().split('\n').at(-1)).toContain('There is no site "Nowhere"');
  });
});

describe('cleanby show costs of units with losses', { timeout: 120_000 }, () => {
  it('prints energy in MWh in the table and in joules in the document', async () => {
    const database = await temporaryDatabase();
    try {
      await plannedFleet(database.context, { seed: 31, units: 1 });
      const asked = ['show', 'costs', '--from', '2026-03-01', '--to', '2026-05-31'];
      const [table, json] = await Promise.all([
        runCleanby(asked, database.url),
        runCleanby([...asked, '--json'], database.url),
      ]);
      const { energyLost } = fleetCostsSchema.parse(JSON.parse(json.stdout)).units[0]!;
      const [heads, row] = table.stdout.split('\n').map((line) => line.trim().split(/ {2,}/));
      // 1 MWh is 3.6 GJ.
      const shown = Number(row![heads!.indexOf('heat lost [MWh]')]);
      expect(energyLost).toBeGreaterThan(0);
      expect(shown / (energyLost! / 3.6e9)).toBeCloseTo(1, 3);
      expect(table.stdout).not.toContain('[J]');
    } finally {
      database.remove();
    }
  });
});
