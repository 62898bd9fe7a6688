import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type FleetFile, type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { fleetWorkbook } from '@/lib/report/fleet-sheet/fleet-workbook';
import { checkFleetSheet } from '@/lib/work/check-fleet-sheet';
import { makeFleetSheet, workbookOf } from '@/lib/work/fleet-sheet';
import { registerFleet } from '@/lib/work/register-fleet';
import { registerFleetSheet } from '@/lib/work/take-fleet-sheet';
import { DEMO_FLEETS } from '@/seed/demo-fleet';
import { anyUnit } from '../../support/any-unit';
import { SUPPLIES_FROM } from '../../support/sheet-supplies';
import { type TemporaryDatabase, temporaryDatabase } from '../../support/temporary-database';

const fleets: FleetFile[] = DEMO_FLEETS.map((fleet) => ({
  ...fleet,
  site: { ...fleet.site, supplies: SUPPLIES_FROM(fleet.site.name) },
}));
const unitCount = fleets.flatMap(({ units }) => units).length;

let database: TemporaryDatabase;
let bytes: Uint8Array<ArrayBuffer>;
beforeAll(async () => {
  database = await temporaryDatabase();
  for (const fleet of fleets) await registerFleet(database.context, fleet);
  bytes = await makeFleetSheet(database.context, { withUnits: true, system: 'si' });
});
afterAll(() => database.remove());

describe('the demo fleet', () => {
  it('is unchanged when it is downloaded and sent back, prices and sites too', async () => {
    const { check, fleets: toSave } = await checkFleetSheet(database.context, bytes);
    expect(check.faults).toEqual([]);
    expect(check.notes).toEqual([]);
    expect(check.units.filter(({ outcome }) => outcome !== 'unchanged')).toEqual([]);
    expect(check).toMatchObject({ sites: [], prices: 0 });
    expect(check.units.length).toBe(unitCount);
    expect(toSave).toEqual([]);
  });

  it('is the same in a new database', async () => {
    const other = await temporaryDatabase();
    const taken = await registerFleetSheet(other.context, bytes);
    expect(taken).toMatchObject({ updated: [], unchanged: [], prices: 4 });
    expect(taken.added.length).toBe(unitCount);
    for (const fleet of fleets) {
      const { added, updated } = await registerFleet(other.context, fleet);
      expect({ added, updated }).toEqual({ added: [], updated: [] });
    }
    expect((await checkFleetSheet(other.context, bytes)).check.prices).toBe(0);
    await other.remove();
  });
});

describe('any fleet', () => {
  it('is read back from the workbook as it was written, whatever its units state and in which units of measure', async () => {
    const site = { name: 'Any works', timeZone: 'Europe/Lisbon', currency: 'EUR' };
    const [empty, filled] = [await temporaryDatabase(), await temporaryDatabase()];
    const oneFleet = fc.array(anyUnit, { minLength: 1, maxLength: 8 });
    await fc.assert(
      fc.asyncProperty(oneFleet, async (stated) => {
        const units = stated.map((unit, i): Unit => unitSchema.parse({ ...unit, tag: `U-${i}` }));
        const sheets = fleetWorkbook(
          { sites: [site], units: units.map((unit) => ({ site: site.name, version: 1, unit })), prices: [] },
          'us',
        );
        const { check, fleets: read } = await checkFleetSheet(empty.context, await workbookOf(sheets));
        expect(check.faults).toEqual([]);
        expect(read[0]!.units).toEqual(units.map(sorted));
        await registerFleet(filled.context, read[0]);
        const known = await makeFleetSheet(filled.context, { withUnits: true, system: 'si' });
        const again = await checkFleetSheet(filled.context, known);
        expect(again.check.faults).toEqual([]);
        expect(again.check.units.filter(({ outcome }) => outcome !== 'unchanged')).toEqual([]);
      }),
      { numRuns: 8, seed: 20_261_129 },
    );
    await Promise.all([empty.remove(), filled.remove()]);
  });
});

/** Limits stand by kind in a sheet, in the order of its columns. */
function sorted(unit: Unit): Unit {
  const order = ['fouling-resistance', 'cleanliness', 'hot', 'cold'];
  const key = (limit: Unit['limits'][number]) => {
    const stream = 'stream' in limit ? limit.stream : limit.kind;
    const within = limit.kind === 'pressure-drop' ? 2 : 'below' in limit && limit.below !== undefined ? 1 : 0;
    const byKind = limit.kind === 'pressure-drop' ? 1 : 0;
    return order.indexOf(stream) < 2
      ? order.indexOf(stream) * 100
      : 200 + byKind * 50 + order.indexOf(stream) * 10 + within;
  };
  return { ...unit, limits: [...unit.limits].sort((a, b) => key(a) - key(b)) };
}
