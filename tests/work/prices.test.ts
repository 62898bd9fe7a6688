import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FleetFile } from '@/lib/contract/fleet-file';
import { pricesSchema } from '@/lib/contract/prices';
import { analyse } from '@/lib/work/analyse';
import { readFleet } from '@/lib/work/read-fleet';
import { showPrices } from '@/lib/work/read-prices';
import { recordPrice, takePrice } from '@/lib/work/record-price';
import { registerFleet } from '@/lib/work/register-fleet';
import { showUnit } from '@/lib/work/show-results';
import { takeReadings } from '@/lib/work/take-readings';
import { readingsCsv } from '../support/api';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainUnit } from '../support/units';
import { writeDaily } from '../support/write-daily';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, FLEET);
  // Fouled throughout: 20 m2 of a counter-current unit that the datasheet calls clean at another U.
  await takeReadings(database.context, { name: 'a.csv', source: bytes(readingsCsv('E-1', 24 * 40)) });
}, 60_000);
afterAll(() => database.remove());

const SITE = 'Test works';
const perMegawattHour = (amount: number) => ({ amount, per: 'MW.h' });
/** Clean, the unit would pass more than it does: something is lost on every day. */
const CLEAN = { cleanU: { value: 3000, unit: 'W/(m2.K)' } };
const E1 = plainUnit('E-1', {
  energy: { effect: 'heating', supply: 'gas', efficiency: 0.8 },
  limits: [{ kind: 'cleanliness', below: 0.5 }],
});
const FLEET: FleetFile = {
  site: {
    name: SITE,
    timeZone: 'Europe/Lisbon',
    currency: 'EUR',
    supplies: [{ name: 'gas', dated: [{ from: '2025-01-01', price: perMegawattHour(40) }] }],
  },
  units: [
    { ...E1, design: { ...E1.design, ...CLEAN } },
    plainUnit('E-2', { energy: { effect: 'heating', price: { amount: 0.05, per: 'kW.h' } } }),
    plainUnit('E-3', { energy: { effect: 'cooling', supply: 'electricity', efficiency: 4 } }),
  ],
};

async function* bytes(text: string) {
  yield new TextEncoder().encode(text);
}

const dueSince = async () =>
  [...(await database.context.store.series.due()).values()].map(({ since }) => since);
const costOf = async (tag: string) => (await showUnit(database.context, tag)).cost;

// One story, told in order: each step stands on the one before.
describe('dated prices', { timeout: 60_000 }, () => {
  it('come with the fleet file, and the same file again changes nothing', async () => {
    expect((await showPrices(database.context)).supplies[1]).toMatchObject({
      supply: 'gas',
      dated: [{ from: '2025-01-01', price: perMegawattHour(40), carbon: null, isInForce: true }],
      usedBy: ['E-1'],
    });
    const before = await showPrices(database.context);
    const again = await registerFleet(database.context, FLEET);
    expect(again).toMatchObject({ unchanged: ['E-1', 'E-2', 'E-3'], added: [], updated: [] });
    expect(await showPrices(database.context)).toEqual(before);
    expect(await dueSince()).toEqual([]);
  });

  it('are added by a fleet file that states another one, and what it leaves out stays', async () => {
    const supplies = [{ name: 'gas', dated: [{ from: '2026-01-21', price: perMegawattHour(80) }] }];
    const saved = await registerFleet(database.context, { ...FLEET, site: { ...FLEET.site, supplies } });
    expect(saved).toMatchObject({ added: [], updated: [] });
    const { supplies: known } = await readFleet(database.context);
    expect(known.map(({ fromDay, price }) => [fromDay, price!.amount])).toEqual([
      [20_089, 40],
      [20_474, 80],
    ]);
  });

  it('price results anew without a reading being evaluated again', async () => {
    const before = await costOf('E-1');
    const { series } = database.context.store;
    const { id } = (await readFleet(database.context)).units[0]!.record;
    const daily = await series.readDaily(id);
    // A day nobody would evaluate to: it stays only where the readings are left alone.
    daily.duty[3] = 123_456;
    await writeDaily(database.context, id, daily);
    await analyse(database.context);
    const after = await costOf('E-1');
    expect((await series.readDaily(id)).duty[3]).toBe(123_456);
    // By hand: 20 of the 40 days at twice the price; what is lost on a day is the same but for a little movement.
    expect(after!.sinceCleaning! / before!.sinceCleaning!).toBeCloseTo(1.5, 1);
    expect(after!.perDay! / before!.perDay!).toBeCloseTo(2, 6);
    expect(await dueSince()).toEqual([]);
  });

  it('are recorded one by one; a second entry of a day takes the place of the first', async () => {
    const entry = { site: SITE, supply: 'gas', from: '2026-01-21', by: 'energy buyer' };
    const before = (await costOf('E-1'))!.perDay!;
    await takePrice(database.context, { ...entry, price: perMegawattHour(60), note: 'new contract' });
    expect((await costOf('E-1'))!.perDay! / before).toBeCloseTo(60 / 80, 9);
    const { dated } = (await showPrices(database.context)).supplies[1]!;
    expect(dated.map(({ from, price, isInForce }) => [from, price!.amount, isInForce])).toEqual([
      ['2026-01-21', 60, true],
      ['2026-01-21', 80, false],
      ['2025-01-01', 40, true],
    ]);
    expect(dated[0]).toMatchObject({ by: 'energy buyer', note: 'new contract' });
  });

  it('are withdrawn, and the one before goes on', async () => {
    const entry = { site: SITE, supply: 'gas', from: '2026-01-21' };
    const before = (await costOf('E-1'))!.perDay!;
    const prices = await takePrice(database.context, { ...entry, withdraw: true });
    expect(
      pricesSchema
        .strict()
        .parse(prices)
        .supplies[1]!.dated.map(({ isInForce }) => isInForce),
    ).toEqual([false, false, false, true]);
    expect((await costOf('E-1'))!.perDay! / before).toBeCloseTo(40 / 60, 9);
    await expect(recordPrice(database.context, { ...entry, withdraw: true })).rejects.toMatchObject({
      code: 'invalid-input',
      faults: [{ field: 'from' }],
    });
  });

  it('of an unknown site are refused with the sites there are', async () => {
    const asked = { site: 'Elsewhere', supply: 'gas', from: '2026-01-21', price: perMegawattHour(60) };
    await expect(recordPrice(database.context, asked)).rejects.toMatchObject({
      code: 'not-found',
      faults: [{ field: 'site', message: expect.stringContaining(SITE) }],
    });
  });

  it('are missing where a unit names a supply that nothing is stated of, or names none', async () => {
    const { unpriced, datasheets } = await showPrices(database.context);
    expect(unpriced).toEqual([{ tag: 'E-3', site: SITE, reason: 'no price is stated of electricity' }]);
    expect(datasheets).toMatchObject([{ tag: 'E-2', price: { amount: 0.05, per: 'kW.h' } }]);
    expect(
      await recordPrice(database.context, {
        site: SITE,
        supply: 'electricity',
        from: '2025-01-01',
        price: { amount: 0.2, per: 'kW.h' },
        carbon: { kg: 0.1, per: 'kW.h' },
      }),
    ).toEqual(['E-3']);
    expect((await showPrices(database.context)).unpriced).toEqual([]);
  });
});
