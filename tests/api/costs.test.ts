import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as costs from '@/app/api/v1/costs/route';
import * as imports from '@/app/api/v1/imports/route';
import * as units from '@/app/api/v1/units/route';
import { fleetCostsSchema } from '@/lib/contract/costs';
import { answerOf, apiDatabase, post, postJson, readingsCsv, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet, plainUnit } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
});
afterAll(() => database.remove());

const get = (query = '') => answerOf(costs.GET(request(`costs${query}`)));
const fieldsOf = ({ errors }: Record<string, unknown>) =>
  (errors as { field: string }[]).map(({ field }) => field);

describe('what fouling costs over HTTP', () => {
  it('is a document of the contract before the first unit', async () => {
    const { status, document } = await get();
    expect(status).toBe(200);
    expect(fleetCostsSchema.strict().parse(document)).toMatchObject({ asOf: null, sites: [], units: [] });
  });

  it('counts the days of a unit with readings, and prices them as the datasheet says', async () => {
    const energy = { effect: 'heating', price: { amount: 50, per: 'MW.h' }, efficiency: 0.9 } as const;
    // Cleaner than it is designed by now: 20 % more area than the readings speak for.
    const unit = plainUnit('E-1', { energy, area: { value: 24, unit: 'm2' } });
    await answerOf(units.POST(postJson('units', { site: plainFleet(['any']).site, unit })));
    await answerOf(imports.POST(post('imports', readingsCsv('E-1', 35 * 24))));
    const { document } = await get('?from=2026-01-05&to=2026-01-11');
    const { units: lost, sites } = fleetCostsSchema.strict().parse(document);
    expect(lost[0]).toMatchObject({ tag: 'E-1', days: 7, currency: 'EUR', reason: null });
    // Heat over the efficiency, at 50 a megawatt-hour.
    expect(lost[0]!.money).toBeCloseTo((lost[0]!.energyLost! / 0.9 / 3.6e9) * 50, 6);
    expect(sites[0]!.money).toBe(lost[0]!.money);
  });

  it('names what it cannot read, and answers 404 for a site that is not there', async () => {
    const wrong = await get('?period=next-year');
    expect([wrong.status, fieldsOf(wrong.document)]).toEqual([422, ['period']]);
    expect(fieldsOf((await get('?from=2026-01-05')).document)).toEqual(['to']);
    expect(fieldsOf((await get('?from=2026-01-05&to=2026-01-01')).document)).toEqual(['to']);
    expect((await get('?site=Nowhere')).status).toBe(404);
  });

  it('is a file with format=csv', async () => {
    const answer = await costs.GET(request('costs?from=2026-01-05&to=2026-01-11&format=csv'));
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="cleanby-costs.csv"');
    expect(answer.headers.get('content-type')).toContain('text/csv');
    const lines = (await answer.text()).split('\r\n');
    expect(lines[0]).toMatch(/^kind,tag,service,site,effect,from,to,currency,energy_lost\[MW\.h\]/);
    expect(lines[1]).toMatch(/^unit,E-1,,Test works,heating,2026-01-05,2026-01-11,EUR,/);
  });
});
