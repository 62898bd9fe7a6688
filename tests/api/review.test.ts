import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as imports from '@/app/api/v1/imports/route';
import * as marks from '@/app/api/v1/review/marks/route';
import * as review from '@/app/api/v1/review/route';
import * as units from '@/app/api/v1/units/route';
import { reviewSchema } from '@/lib/contract/review';
import { answerOf, apiDatabase, post, postJson, readingsCsv, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet, plainUnit } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
});
afterAll(() => database.remove());

const get = (query = '') => answerOf(review.GET(request(`review${query}`)));
const mark = (document: unknown) => answerOf(marks.POST(postJson('review/marks', document)));
const fieldsOf = ({ errors }: Record<string, unknown>) =>
  (errors as { field: string }[]).map(({ field }) => field);

describe('the review over HTTP', () => {
  it('is a document of the contract before the first unit', async () => {
    const { status, document } = await get();
    expect(status).toBe(200);
    expect(reviewSchema.parse(document)).toMatchObject({ today: null, units: [], counts: { units: 0 } });
  });

  it('lists changes since a day, and refuses one that is none', async () => {
    await answerOf(units.POST(postJson('units', { site: plainFleet(['any']).site, unit: plainUnit('E-1') })));
    // Five weeks of readings from the first of January on.
    await answerOf(imports.POST(post('imports', readingsCsv('E-1', 35 * 24))));
    const { document } = await get('?since=2026-01-20');
    expect(reviewSchema.parse(document)).toMatchObject({
      since: '2026-01-20',
      today: '2026-02-04',
      counts: { units: 1 },
    });
    for (const since of ['2026-02-30', 'Monday', '20260120']) {
      const refused = await get(`?since=${since}`);
      expect(refused.status).toBe(422);
      expect(fieldsOf(refused.document)).toEqual(['since']);
    }
  });

  it('answers 404 for a site that is not there', async () => {
    expect((await get('?site=Nowhere')).status).toBe(404);
  });
});

describe('marks over HTTP', () => {
  const whole = { tag: 'E-1', line: 'near-limit@2026-01-01', kind: 'note', by: 'Shift B', text: 'look' };

  it('are kept and given back with their instant', async () => {
    const { status, document } = await mark(whole);
    expect(status).toBe(200);
    expect(document).toMatchObject(whole);
    expect(Date.parse(String(document.at))).toBeGreaterThan(0);
  });

  it('name every field that is not valid', async () => {
    const wrong = await mark({ ...whole, line: 'near limit', by: ' ', kind: 'done' });
    expect(wrong.status).toBe(422);
    expect(fieldsOf(wrong.document).sort()).toEqual(['by', 'kind', 'line']);
    expect(fieldsOf((await mark({ ...whole, text: '' })).document)).toEqual(['text']);
    expect((await mark({ ...whole, kind: 'seen', text: null })).status).toBe(200);
  });

  it('answer 404 for a unit that is not there', async () => {
    expect((await mark({ ...whole, tag: 'E-9' })).status).toBe(404);
  });
});
