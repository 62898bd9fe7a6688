import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { identify } from '@/lib/auth/identify';
import { log } from '@/lib/work/log';
import { demoAccounts, signInToDemo } from '@/lib/work/people/sign-in-demo';
import { addDemoAccounts } from '@/seed/demo-accounts';
import { addPerson, browserHeaders, recordedChanges, refusalOf } from '../support/people';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

vi.hoisted(() => {
  process.env.CLEANBY_LOG_LEVEL = 'silent';
});

let database: TemporaryDatabase;
const ENGINEER = 'engineer@demo.example';

beforeAll(async () => {
  database = await temporaryDatabase();
  await addDemoAccounts(database.context);
});
afterAll(() => database.remove());
beforeEach(() => {
  vi.stubEnv('CLEANBY_DEMO', '1');
  vi.stubEnv('CLEANBY_BIND', '127.0.0.1');
});
afterEach(() => {
  vi.unstubAllEnvs();
});

const offered = async (headers = browserHeaders()) =>
  (await demoAccounts(database.context, headers)).map(({ role }) => role);

const open = (email: string, headers = browserHeaders()) => signInToDemo(database.context, email, headers);

describe('the accounts of a demonstration', () => {
  it('are one for each role, without a password, open in one click on this machine', async () => {
    expect((await offered()).sort()).toEqual(['administrator', 'engineer', 'manager', 'planner', 'viewer']);
    expect(await database.context.store.entities.account.count()).toBe(0);
    const cookies = await open(ENGINEER);
    const visitor = await identify(database.context.store, browserHeaders(cookies), Date.now());
    expect(visitor?.role).toBe('engineer');
  });

  it('are opened with a line in the record and in the log', async () => {
    const told = vi.spyOn(log, 'info');
    await open(ENGINEER);
    const { id, name } = await database.context.store.entities.user.findUniqueOrThrow({
      where: { email: ENGINEER },
    });
    expect((await recordedChanges(database.context)).at(-1)).toMatchObject({
      actor: name,
      what: `account ${ENGINEER} signed-in`,
    });
    const entered = expect.objectContaining({ event: 'signed-in', account: id });
    expect(told).toHaveBeenCalledExactlyOnceWith(entered, expect.any(String));
    told.mockRestore();
  });

  it.each([
    ['without CLEANBY_DEMO', { CLEANBY_DEMO: '' }, {}],
    ['where the server listens to all addresses', { CLEANBY_BIND: '0.0.0.0' }, {}],
    ['where nobody says what it listens to', { CLEANBY_BIND: '' }, {}],
    ['where a name to answer under is listed', { CLEANBY_HOSTS: 'plant-server' }, {}],
    ['where the address people use is stated', { CLEANBY_ORIGIN: 'https://cleanby.plant.example' }, {}],
    ['where a proxy is believed', { CLEANBY_TRUST_PROXY: '1' }, {}],
    ['under another name', {}, { host: 'cleanby.plant.example' }],
    ['under a name that only begins alike', {}, { host: 'localhost.plant.example' }],
    ['behind a proxy', {}, { 'x-forwarded-for': '10.0.0.7' }],
    ['behind a proxy that a caller lies to', {}, { 'x-forwarded-for': '127.0.0.1, 10.0.0.7' }],
    ['behind a proxy of the newer kind', {}, { forwarded: 'for=10.0.0.7' }],
  ])('are shut %s', async (_case, environment, sent) => {
    for (const [name, value] of Object.entries(environment)) vi.stubEnv(name, value);
    const headers = browserHeaders([], sent as unknown as Record<string, string>);
    expect(await offered(headers)).toEqual([]);
    expect((await refusalOf(open(ENGINEER, headers))).code).toBe('not-allowed');
  });

  it('are no way into an account with a password, nor into a real one', async () => {
    await addPerson(database.context, 'administrator', 'Real Person');
    expect((await refusalOf(open('real.person@plant.example'))).code).toBe('not-allowed');
    const { entities } = database.context.store;
    const { id } = await entities.user.findUniqueOrThrow({ where: { email: ENGINEER } });
    const instant = new Date();
    const account = { id: 'x', userId: id, accountId: id, providerId: 'credential', password: 'scrypt$' };
    await entities.account.create({ data: { ...account, createdAt: instant, updatedAt: instant } });
    expect((await refusalOf(open(ENGINEER))).code).toBe('not-allowed');
  });
});
