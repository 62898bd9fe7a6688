import fc from 'fast-check';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { respond } from '@/app/api/respond';
import { limitOf, takeSignInAttempt, USUAL_LIMITS } from '@/lib/auth/limits';
import { RateLimit } from '@/lib/auth/rate-limit';
import { TooManyRequests } from '@/lib/contract/too-many-requests';
import { apiDatabase, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';

const MINUTE = 60_000;
const UNITS = 'http://localhost:4000/api/v1/units';
const limit = (quota: number, mostKeys = 100) =>
  new RateLimit({ name: 'x', quota, windowMs: MINUTE, mostKeys });

describe('a limit', () => {
  it('lets as many through at once as it says, and then one for each part of its window', () => {
    const one = limit(6);
    const taken = Array.from({ length: 7 }, () => one.take('a', 0));
    expect(taken.map(({ remaining }) => remaining)).toEqual([5, 4, 3, 2, 1, 0, 0]);
    expect(taken.map(({ retryAfter }) => retryAfter)).toEqual([null, null, null, null, null, null, 10]);
    expect(one.take('a', 9_999).retryAfter).toBeCloseTo(0.001, 9);
    expect(one.take('a', 10_000).retryAfter).toBeNull();
    expect(one.take('a', 10_000).retryAfter).toBe(10);
    expect(one.take('b', 10_000).remaining).toBe(5);
  });

  it('never lets more than twice its number through in one window, whenever they come', () => {
    const gaps = fc.array(fc.integer({ min: 0, max: 5_000 }), { minLength: 50, maxLength: 200 });
    fc.assert(
      fc.property(gaps, fc.integer({ min: 1, max: 20 }), (waits, quota) => {
        const one = limit(quota);
        let now = 0;
        const passed: number[] = [];
        for (const wait of waits) {
          now += wait;
          if (one.take('a', now).retryAfter === null) passed.push(now);
        }
        return passed.every(
          (at, i) => passed.slice(i).filter((later) => later < at + MINUTE).length <= 2 * quota,
        );
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  it('remembers no more keys than it may, and none that has nothing to make up for', () => {
    const one = limit(10, 50);
    for (let i = 0; i < 500; i++) one.take(`key ${i}`, 0);
    expect(one.size).toBe(50);
    one.take('late', 2 * MINUTE);
    expect(one.size).toBe(1);
  });
});

describe('limits of the API', () => {
  let database: TemporaryDatabase;
  beforeAll(async () => {
    database = await apiDatabase();
  });
  afterAll(() => database.remove());
  afterEach(() => {
    delete process.env.CLEANBY_LIMITS;
    delete process.env.CLEANBY_TRUST_PROXY;
  });
  const ask = (headers: Record<string, string> = {}) =>
    respond(request('units', { headers }), async () => ({ fine: true }));

  it('are told with every answer, and end in a problem document that says when to ask again', async () => {
    process.env.CLEANBY_LIMITS = 'token=2';
    const first = await ask();
    expect(first.headers.get('ratelimit-policy')).toBe('"address";q=3000;w=60, "token";q=2;w=60');
    expect(first.headers.get('ratelimit')).toBe('"address";r=2999;t=1, "token";r=1;t=30');
    expect((await ask()).status).toBe(200);
    const third = await ask();
    expect([third.status, third.headers.get('retry-after')]).toEqual([429, '30']);
    expect(await third.json()).toMatchObject({ type: 'urn:cleanby:problem:too-many-requests', status: 429 });
  });

  it('count each token and each address for itself', async () => {
    process.env.CLEANBY_LIMITS = 'token=1,address=2';
    process.env.CLEANBY_TRUST_PROXY = '1';
    const from = (address: string) => ({ 'x-forwarded-for': address });
    expect((await ask(from('10.0.0.1'))).status).toBe(200);
    const other = { authorization: 'Bearer cleanby_other' };
    // Wrong, but counted for itself: 401 and not 429.
    expect((await ask({ ...from('10.0.0.1'), ...other })).status).toBe(401);
    expect((await ask({ ...from('10.0.0.1'), authorization: 'Bearer cleanby_third' })).status).toBe(429);
    expect((await ask({ ...from('10.0.0.2'), authorization: 'Bearer cleanby_third' })).status).not.toBe(200);
  });

  it('of the address that all share are not used up by those who send nothing, or invent something', async () => {
    process.env.CLEANBY_LIMITS = 'address=2';
    const anonymous = () =>
      respond(new Request(UNITS, { headers: { host: 'localhost:4000' } }), async () => ({}));
    for (let i = 0; i < 2; i++) expect((await anonymous()).status).toBe(401);
    expect((await anonymous()).status).toBe(429);
    for (let i = 0; i < 5; i++)
      expect((await ask({ authorization: `Bearer cleanby_${i}` })).status).toBe(401);
    expect((await ask()).status).toBe(200);
    expect((await ask({ authorization: '', cookie: 'cleanby.session_token=x' })).status).toBe(401);
  });

  it('of a token count tokens only: a server in front may send one password for all', async () => {
    process.env.CLEANBY_LIMITS = 'token=1';
    for (let i = 0; i < 3; i++)
      expect((await ask({ authorization: 'Basic cGxhbnQ6cGxhbnQ=' })).status).toBe(401);
  });

  it('refuse before anything is looked up', async () => {
    process.env.CLEANBY_LIMITS = 'address=1';
    await ask();
    process.env.DATABASE_URL = 'file:/nowhere/at/all.db';
    expect((await ask()).status).toBe(429);
    process.env.DATABASE_URL = database.url;
  });

  it('are smaller for attempts to sign in', () => {
    process.env.CLEANBY_LIMITS = 'sign-in=3';
    for (let i = 0; i < 3; i++) takeSignInAttempt('10.0.0.9');
    expect(() => takeSignInAttempt('10.0.0.9')).toThrow(TooManyRequests);
    expect(() => takeSignInAttempt('10.0.0.8')).not.toThrow();
  });

  it('can be set, and what is no number leaves the usual one', () => {
    expect(limitOf('token', 'address=5, token=7')).toBe(7);
    for (const set of ['token=0', 'token=-1', 'token=1e9', 'token', 'x=1']) {
      expect(limitOf('token', set)).toBe(USUAL_LIMITS.token);
    }
  });
});
