import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { GET } from '@/app/api/units/[tag]/charts/route';
import { chartsView } from '@/lib/report/unit/charts-view';
import { type PackedCharts, unpackCharts } from '@/lib/report/unit/packed-charts';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { analyse } from '@/lib/work/analyse';
import { importColumns } from '@/lib/work/import-readings';
import { judgePeriod } from '@/lib/work/judge-period';
import { readUnitAt } from '@/lib/work/read-unit-at';
import { apiDatabase, request } from '../support/api';
import { FEW_PLATES, installed, swingingReadings, unitWithReadings } from '../support/clean-records';
import { DAY_MS, EPOCH } from '../support/forward-readings';
import type { TemporaryDatabase } from '../support/temporary-database';

const DAYS = 20;
const { tag } = FEW_PLATES;
const unit = installed(FEW_PLATES);
const readings = (days: number) =>
  swingingReadings(days * 24, { unitAt: () => unit, foulingAt: (hour) => 1e-7 * hour, swing: 0.03 });

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  database.context.now = () => EPOCH + (DAYS + 5) * DAY_MS;
  await unitWithReadings(database.context, FEW_PLATES, readings(DAYS));
  await analyse(database.context);
});
afterAll(() => database.remove());

describe('the charts of a unit for a window', () => {
  it('are those of its page for the same address', async () => {
    const queries: Record<string, string>[] = [
      { period: 'all' },
      { from: '2025-01-10', to: '2025-01-12', units: 'us' },
    ];
    for (const query of queries) {
      const address = parseUnitAddress(tag, query);
      const records = (await readUnitAt(database.context, address))!;
      const page = chartsView(records, address, query.units === 'us' ? 'us' : 'si');
      expect(JSON.parse(JSON.stringify(await ask(query)))).toEqual(JSON.parse(JSON.stringify(page)));
    }
  });

  it('show a verdict and a reading that arrived at once, before and after the analysis', async () => {
    const countOf = async () => {
      const { charts } = await ask({ period: 'all', columns: 'all', figure: 'temperatures' });
      const { time, lane } = charts[0]!.view;
      return { rows: time.length, remarks: lane!.remarks.join(' ') };
    };
    const before = await countOf();
    await judgePeriod(database.context, tag, {
      from: new Date(EPOCH + 5 * DAY_MS).toISOString(),
      to: new Date(EPOCH + 6 * DAY_MS).toISOString(),
      verdict: 'exclude',
      note: 'bypass open',
    });
    expect(before.remarks).not.toContain('bypass open');
    expect((await countOf()).remarks).toContain('bypass open');
    await importColumns(database.context, tag, readings(DAYS + 2));
    await analyse(database.context);
    expect((await countOf()).rows).toBeGreaterThan(before.rows + 40);
  });

  it('are refused for what is not known, each by its field', async () => {
    expect((await fetchCharts('no-such-unit', {})).status).toBe(404);
    expect((await fetchCharts(tag, { columns: '5' })).status).toBe(422);
    expect((await fetchCharts(tag, { columns: 'all' })).status).toBe(422);
    expect((await fetchCharts(tag, { figure: 'x' })).status).toBe(422);
  });
});

function fetchCharts(of: string, query: Record<string, string>): Promise<Response> {
  // This route belongs to the page and has no version: it stands beside those that have one.
  const asked = request(`../units/${of}/charts?${new URLSearchParams(query)}`);
  return GET(asked, { params: Promise.resolve({ tag: of }) });
}

async function ask(query: Record<string, string>) {
  const response = await fetchCharts(tag, query);
  expect(response.status).toBe(200);
  return unpackCharts((await response.json()) as PackedCharts);
}
