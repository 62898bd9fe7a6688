import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FleetPageContent, WindowItem } from '@/lib/report/fleet/fleet-index';
import { DEFAULT_FLEET_ADDRESS, type FleetAddress } from '@/lib/report/fleet-address';
import { analyse } from '@/lib/work/analyse';
import type { Context } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { readFleet } from '@/lib/work/read-fleet';
import { fleetCsvPieces, readFleetPage, readFleetWindow } from '@/lib/work/read-fleet-page';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { fleetViewOf } from '../support/fleet-view-of';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const DAY = 86_400_000;
const END = Date.parse('2026-04-20T00:00:00Z');
const SPAN = { start: END - 60 * DAY, end: END, stepMs: 4 * 3_600_000, seed: 7 };
const { fleet, plans } = makeHeldOutFleet(3, 2);
const [first, second] = plans.map(({ unit }) => unit.tag) as [string, string];

let database: TemporaryDatabase;
let context: Context;
beforeAll(async () => {
  database = await temporaryDatabase();
  context = { ...database.context, now: () => END + DAY };
  await registerFleet(context, { ...fleet, units: plans.map(({ unit }) => unit) });
  await importColumns(context, first, generateReadings(plans[0]!, SPAN).readings);
  await analyse(context, {});
}, 120_000);
afterAll(() => database.remove());

const rowsOf = (items: WindowItem[]) => items.flatMap((item) => (item.kind === 'row' ? item.row : []));
const page = async (address: Partial<FleetAddress> = {}) => {
  const { text } = await readFleetPage(context, { ...DEFAULT_FLEET_ADDRESS, ...address }, 'si');
  const { view, window } = JSON.parse(text) as FleetPageContent;
  return { view, rows: rowsOf(window.items) };
};
/** The page as it is worked out from whole results and all daily figures. */
const whole = async () => fleetViewOf(await readFleet(context), DEFAULT_FLEET_ADDRESS, 'si');

/** Both in the order of tags. */
async function expectSame() {
  const { view, rows } = await page({ sort: 'tag' });
  const { rows: expected, ...around } = await whole();
  const byTag = expected.sort((a, b) => a.tag.localeCompare(b.tag, 'en-GB', { numeric: true }));
  expect(rows).toEqual(byTag);
  expect({ ...view, staleness: [] }).toEqual({ ...around, staleness: [] });
}

describe('the fleet page from what is kept of it', () => {
  it('says and draws what whole results say', expectSame);

  it('knows a cleaning at once, before any analysis', async () => {
    await recordCleaning(context, {
      tag: first,
      at: END - 20 * DAY,
      method: 'jetting',
      cost: null,
      durationMs: null,
    });
    const row = (await page()).rows.find(({ tag }) => tag === first)!;
    expect(row.cleanings.map(({ words }) => words)).toContain('cleaned 31 Mar 2026, jetting');
    expect((await page()).view.staleness).toContain(
      'One unit has changed since the last analysis: run cleanby analyse.',
    );
    await expectSame();
  });

  it('knows new results, and units that get their first', async () => {
    expect((await page()).rows.find(({ tag }) => tag === second)!.cleanBy.main).toBe('no readings yet');
    await importColumns(context, second, generateReadings(plans[1]!, SPAN).readings);
    await analyse(context, {});
    expect((await page()).rows.find(({ tag }) => tag === second)!.cleanBy.main).not.toBe('no readings yet');
    await expectSame();
  });

  it('works a summary out that was not kept', async () => {
    const other = await temporaryDatabase();
    try {
      const own = { ...other.context, now: context.now };
      await registerFleet(own, { ...fleet, units: [plans[0]!.unit] });
      await importColumns(own, first, generateReadings(plans[0]!, SPAN).readings);
      await analyse(own, {});
      await own.store.entities.unitResult.updateMany({ data: { summary: null } });
      const { text } = await readFleetPage(own, DEFAULT_FLEET_ADDRESS, 'si');
      const { window } = JSON.parse(text) as FleetPageContent;
      const expected = fleetViewOf(await readFleet(own), DEFAULT_FLEET_ADDRESS, 'si').rows;
      expect(rowsOf(window.items)).toEqual(expected);
    } finally {
      await other.remove();
    }
  }, 60_000);

  it('goes on in windows, and as a file', async () => {
    const window = JSON.parse(
      await readFleetWindow(context, { ...DEFAULT_FLEET_ADDRESS, sort: 'tag', from: 1 }, 30),
    );
    expect(window).toMatchObject({ from: 1, rows: 2, count: 2 });
    expect(window.items).toHaveLength(1);
    let csv = '';
    for await (const piece of fleetCsvPieces(context, DEFAULT_FLEET_ADDRESS, 'si')) csv += piece;
    expect(csv.trim().split('\r\n')).toHaveLength(3);
  });
});
