import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { makeFirstRunCode } from '@/lib/auth/first-run-code';
import { identify } from '@/lib/auth/identify';
import { isFirstRun, startFirst } from '@/lib/work/people/first-run';
import { browserHeaders, PASSWORD, refusalOf } from '../support/people';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

vi.hoisted(() => {
  process.env.CLEANBY_LOG_LEVEL = 'silent';
});
vi.mock('@/lib/auth/password-hash', () => import('../support/plain-hash'));

let database: TemporaryDatabase;
const FIRST = { name: 'First Person', email: 'first@plant.example', password: PASSWORD, code: '' };

beforeEach(async () => {
  database = await temporaryDatabase();
  vi.stubEnv('CLEANBY_BIND', '127.0.0.1');
});
afterEach(() => {
  vi.unstubAllEnvs();
  return database.remove();
});

describe('the first run', () => {
  it('makes an administrator and signs that one in', async () => {
    const { context } = database;
    expect(await isFirstRun(context)).toBe(true);
    const cookies = await startFirst(context, FIRST, browserHeaders());
    const visitor = await identify(context.store, browserHeaders(cookies), context.now());
    expect(visitor?.role).toBe('administrator');
    expect(await isFirstRun(context)).toBe(false);
  });

  it('happens once', async () => {
    const { context } = database;
    await startFirst(context, FIRST, browserHeaders());
    const again = startFirst(context, { ...FIRST, email: 'second@plant.example' }, browserHeaders());
    expect((await refusalOf(again)).code).toBe('conflict');
  });

  it('tried twice at the same moment makes one account', async () => {
    const { context } = database;
    const both = ['a@plant.example', 'b@plant.example'].map((email) =>
      startFirst(context, { ...FIRST, email }, browserHeaders()),
    );
    const outcomes = await Promise.allSettled(both);
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(await context.store.entities.user.count()).toBe(1);
  });

  it.each([
    ['another name', { host: 'cleanby.plant.example' }],
    ['a proxy', { 'x-forwarded-for': '10.0.0.7' }],
    ['a proxy that says so in the new way', { forwarded: 'for=10.0.0.7' }],
    ['somebody who says to be this machine', { 'x-forwarded-for': '127.0.0.1, 10.0.0.7' }],
  ])('is refused through %s without the code of the server', async (_way, sent) => {
    const headers = browserHeaders([], sent as unknown as Record<string, string>);
    const code = makeFirstRunCode();
    expect((await refusalOf(startFirst(database.context, FIRST, headers))).code).toBe('not-allowed');
    vi.stubEnv('CLEANBY_FIRST_RUN_CODE', code);
    const guess = { ...FIRST, code: makeFirstRunCode() };
    expect((await refusalOf(startFirst(database.context, guess, headers))).code).toBe('not-allowed');
    expect((await refusalOf(startFirst(database.context, FIRST, headers))).code).toBe('not-allowed');
    const right = { ...FIRST, code: ` ${code.toUpperCase()} ` };
    expect(await startFirst(database.context, right, headers)).not.toEqual([]);
  });

  it('is refused without the code where the server listens to more than this machine', async () => {
    vi.stubEnv('CLEANBY_BIND', '0.0.0.0');
    const { code } = await refusalOf(startFirst(database.context, FIRST, browserHeaders()));
    expect(code).toBe('not-allowed');
  });

  it.each([
    ['CLEANBY_HOSTS', 'plant-server'],
    ['CLEANBY_ORIGIN', 'https://cleanby.plant.example'],
    ['CLEANBY_TRUST_PROXY', '1'],
  ])('is refused without the code where %s says that people come from elsewhere', async (name, value) => {
    vi.stubEnv(name, value);
    const { code } = await refusalOf(startFirst(database.context, FIRST, browserHeaders()));
    expect(code).toBe('not-allowed');
  });

  it('takes no password that anybody would try', async () => {
    const weak = { ...FIRST, password: 'first@plant.example' };
    expect((await refusalOf(startFirst(database.context, weak, browserHeaders()))).code).toBe(
      'invalid-input',
    );
    expect(await isFirstRun(database.context)).toBe(true);
  });
});
