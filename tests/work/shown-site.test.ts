import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readFleet } from '@/lib/work/read-fleet';
import { siteRequest, siteToShow } from '@/lib/work/shown-site';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

let database: TemporaryDatabase;
const ofNorth = Array.from({ length: 999 }, (_, at) => `N-${at}`);

beforeAll(async () => {
  database = await temporaryDatabase();
  const { entities } = database.context.store;
  const make = (name: string) => entities.site.create({ data: { name, timeZone: 'UTC', currency: 'EUR' } });
  const [north, south] = [await make('North'), await make('South')];
  await entities.unit.createMany({ data: ofNorth.map((tag) => ({ tag, siteId: north.id })) });
  await entities.unit.create({ data: { tag: 'S-1', siteId: south.id } });
});
afterAll(() => database.remove());

describe('pages of whole results', () => {
  it('show all sites of a fleet up to a thousand units, or the one asked for', async () => {
    const { context } = database;
    expect(await siteToShow(context, null)).toEqual({
      site: null,
      isOneOnly: false,
      sites: ['North', 'South'],
    });
    expect((await siteToShow(context, 'South')).site).toBe('South');
  });

  it('show a larger one site by site, and nothing of a site that is not there', async () => {
    const { context } = database;
    const { entities } = context.store;
    const south = await entities.site.findFirstOrThrow({ where: { name: 'South' } });
    await entities.unit.create({ data: { tag: 'S-2', siteId: south.id } });
    expect(await siteToShow(context, null)).toMatchObject({ site: 'North', isOneOnly: true });
    expect(await siteRequest(context, 'South')).toEqual({ siteId: south.id });
    const { units } = await readFleet(context, { lastDays: 0, ...(await siteRequest(context, 'Nowhere')) });
    expect(units).toEqual([]);
  });
});
