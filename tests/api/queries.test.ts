import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { z } from 'zod';
import { parameterNames } from '@/app/api/check-query';
import { respond } from '@/app/api/respond';
import { OPERATIONS } from '@/lib/contract/api/all-operations';
import { log } from '@/lib/work/log';
import { answerOf, apiDatabase, post, postJson, readingsCsv, request } from '../support/api';
import { answerOfRoutes } from '../support/route-files';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet, plainUnit } from '../support/units';

const CSV = readingsCsv('N-1', 12);
const { site } = plainFleet(['N-1']);

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await answerOfRoutes(postJson('fleet', plainFleet(['N-1'])));
});
afterAll(() => database.remove());
afterEach(() => vi.restoreAllMocks());

const imports = () => database.context.store.entities.importBatch.count();
const registered = () => database.context.store.entities.unit.count();

describe('what stands behind ? of an address', () => {
  it('stores nothing where a parameter is misspelt, and says what was meant', async () => {
    const { status, document } = await answerOf(answerOfRoutes(post('imports?name=m.csv&chek=1', CSV)));
    expect([status, document.errors]).toEqual([
      422,
      [{ field: 'chek', message: 'is not known here; did you mean "check"?' }],
    ]);
    expect(await imports()).toBe(0);
  });

  it('stores nothing where a parameter is stated twice', async () => {
    const { status, document } = await answerOf(answerOfRoutes(post('imports?check=1&check=0', CSV)));
    expect([status, document.errors]).toEqual([
      422,
      [{ field: 'check', message: 'is stated more than once: state it once' }],
    ]);
    expect(await imports()).toBe(0);
  });

  it.each(['check=yes', 'chek=1', 'check=1&check=1'])('registers no unit with ?%s', async (query) => {
    const sent = postJson(`units?${query}`, { site, unit: plainUnit('N-7') });
    expect((await answerOfRoutes(sent)).status).toBe(422);
    expect(await registered()).toBe(1);
  });

  it.each(Object.keys(OPERATIONS))('%s: refused where nothing of that name is known', async (key) => {
    const [method, path] = key.split(' ') as [string, string];
    const address = `${path.replace('/api/v1/', '').replaceAll(/\[\w+\]/g, '7')}?nothing-like-it=1`;
    const { status, document } = await answerOf(answerOfRoutes(request(address, { method })));
    expect([status, document.errors]).toEqual([
      422,
      [{ field: 'nothing-like-it', message: 'is not known here: check how it is spelt' }],
    ]);
  });

  it('knows the names of every query that is documented', () => {
    for (const { query } of Object.values(OPERATIONS)) {
      if (query === undefined) continue;
      expect(query).toBeInstanceOf(z.ZodObject);
      expect(parameterNames(query).length).toBeGreaterThan(0);
    }
  });
});

describe('bodies that change something', () => {
  it.each([
    ['POST', 'units/N-1/cleanings'],
    ['PATCH', 'units/N-1/cleanings/7'],
    ['POST', 'units/N-1/cleanings/7/withdraw'],
    ['POST', 'units/N-1/verdicts'],
    ['POST', 'units/N-1/verdicts/7/withdraw'],
    ['POST', 'units/N-1/falls'],
    ['POST', 'units/N-1/falls/7/withdraw'],
    ['POST', 'units/N-1/references'],
    ['POST', 'units/N-1/references?check=1'],
    ['POST', 'prices'],
    ['POST', 'review/marks'],
    ['POST', 'plan/accept'],
    ['POST', 'plan/work/7/done'],
    ['POST', 'plan/work/7/link'],
    ['POST', 'plan/work/7/move'],
    ['POST', 'plan/work/7/call-off'],
  ])('%s %s names a field that is none', async (method, path) => {
    const body = JSON.stringify({ nothingLikeIt: 1 });
    const { status, document } = await answerOf(answerOfRoutes(request(path, { method, body })));
    expect(status).toBe(422);
    expect(document.errors).toContainEqual({
      field: 'nothingLikeIt',
      message: expect.stringContaining('is not known here'),
    });
  });
});

describe('a caller who hung up', () => {
  it('is no failure in the log', async () => {
    const said = vi.spyOn(log, 'info').mockImplementation(() => {});
    const failed = vi.spyOn(log, 'error').mockImplementation(() => {});
    const gone = new AbortController();
    const response = await respond(request('units', { signal: gone.signal }), async () => {
      gone.abort();
      throw gone.signal.reason;
    });
    expect(response.status).toBe(499);
    expect(failed).not.toHaveBeenCalled();
    expect(said).toHaveBeenCalledWith(expect.objectContaining({ status: 499 }), 'request');
  });
});
