import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as prices from '@/app/api/v1/prices/route';
import { pricesSchema } from '@/lib/contract/prices';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, postJson, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await registerFleet(
    database.context,
    plainFleet(['E-1'], { energy: { effect: 'heating', supply: 'gas' }, pumping: { supply: 'power' } }),
  );
});
afterAll(() => database.remove());

const send = (document: unknown) => answerOf(prices.POST(postJson('prices', document)));
const PRICE = {
  site: 'Test works',
  supply: 'gas',
  from: '2026-03-01',
  price: { amount: 0.042, per: 'kW.h' },
  carbon: { kg: 0.2, per: 'kW.h' },
  by: 'energy buyer',
  note: 'contract',
};

describe('prices over HTTP', () => {
  it('are listed with the units that use them, recorded, and withdrawn', async () => {
    const empty = pricesSchema.parse((await answerOf(prices.GET(request('prices')))).document);
    expect(empty.supplies).toMatchObject([
      { supply: 'gas', dated: [], usedBy: ['E-1'], pumpedBy: [] },
      { supply: 'power', dated: [], usedBy: [], pumpedBy: ['E-1'] },
    ]);
    expect(empty.unpriced).toHaveLength(1);
    const { status, document } = await send(PRICE);
    expect(status).toBe(200);
    const { supplies, unpriced } = pricesSchema.parse(document);
    const { site: _site, supply: _supply, ...stated } = PRICE;
    expect(supplies[0]!.dated).toMatchObject([{ ...stated, isInForce: true }]);
    expect(unpriced).toEqual([]);
    const { site, supply, from } = PRICE;
    const withdrawn = pricesSchema.parse((await send({ site, supply, from, withdraw: true })).document);
    expect(withdrawn.unpriced).toHaveLength(1);
  });

  it('are refused with the field and what to do', async () => {
    const faultsOf = async (changes: Record<string, unknown>) => {
      const { status, document } = await send({ ...PRICE, ...changes });
      expect(status).toBe(422);
      return (document.errors as { field: string }[]).map(({ field }) => field);
    };
    expect(await faultsOf({ from: '2026-02-30' })).toEqual(['from']);
    expect(await faultsOf({ price: { amount: -1, per: 'kW.h' } })).toEqual(['price.amount']);
    expect(await faultsOf({ price: { amount: 1, per: 'kg' } })).toEqual(['price.per']);
    expect(await faultsOf({ price: null, carbon: null })).toEqual(['price']);
    expect(await faultsOf({ withdraw: true })).toEqual(['withdraw']);
    expect(await faultsOf({ supply: ' ' })).toEqual(['supply']);
    expect((await send({ ...PRICE, site: 'Elsewhere' })).status).toBe(404);
  });
});
