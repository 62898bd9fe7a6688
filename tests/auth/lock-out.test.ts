import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { FailedAddresses, MOST_PER_ADDRESS, WINDOW_MS } from '@/lib/auth/failed-addresses';
import { waitAfter } from '@/lib/auth/lock-out';
import type { Context } from '@/lib/work/context';
import { log } from '@/lib/work/log';
import { acceptInvitation } from '@/lib/work/people/accept-invitation';
import { changePerson } from '@/lib/work/people/change-person';
import { startFirst } from '@/lib/work/people/first-run';
import { signIn } from '@/lib/work/people/sign-in';
import { addPerson, browserHeaders, emailOf, PASSWORD, recordedChanges, refusalOf } from '../support/people';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const MINUTE = 60_000;
const START = Date.parse('2026-11-02T06:00:00Z');

vi.hoisted(() => {
  process.env.CLEANBY_LOG_LEVEL = 'silent';
});
vi.mock('@/lib/auth/password-hash', () => import('../support/plain-hash'));

let database: TemporaryDatabase;
let now = START;
let address = 0;

beforeAll(async () => {
  database = await temporaryDatabase();
  vi.stubEnv('CLEANBY_TRUST_PROXY', '1');
  vi.stubEnv('CLEANBY_LIMITS', 'sign-in=1000');
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.stubEnv('CLEANBY_TRUST_PROXY', '1');
  vi.stubEnv('CLEANBY_LIMITS', 'sign-in=1000');
});
afterAll(() => {
  vi.unstubAllEnvs();
  return database.remove();
});

function context(): Context {
  return { ...database.context, now: () => now };
}

/** One attempt, each from an address of its own: the account alone is what counts. @returns whether it let in */
async function attempt(name: string, password: string): Promise<boolean> {
  address += 1;
  const headers = browserHeaders([], { 'x-forwarded-for': `10.1.${address >> 8}.${address & 255}` });
  try {
    await signIn(context(), { email: emailOf(name), password }, headers);
    return true;
  } catch {
    return false;
  }
}

async function fail(name: string, times: number): Promise<void> {
  for (let i = 0; i < times; i++) await attempt(name, 'wrong wrong wrong');
}

function account(name: string) {
  return database.context.store.entities.user.findUniqueOrThrow({ where: { email: emailOf(name) } });
}

describe('wrong passwords in a row', () => {
  it('cost nothing up to nine, and the right one forgets them', async () => {
    await addPerson(context(), 'viewer', 'Nine Times');
    await fail('Nine Times', 9);
    expect(await attempt('Nine Times', PASSWORD)).toBe(true);
    expect((await account('Nine Times')).failedSignIns).toBe(0);
  });

  it('let the account wait from the tenth on, longer each time; even the right one is not looked at', async () => {
    await addPerson(context(), 'viewer', 'Ten Times');
    await fail('Ten Times', 10);
    expect(await attempt('Ten Times', PASSWORD)).toBe(false);
    now += MINUTE - 1;
    expect(await attempt('Ten Times', PASSWORD)).toBe(false);
    now += 1;
    expect(await attempt('Ten Times', 'wrong wrong wrong')).toBe(false);
    now += MINUTE;
    expect(await attempt('Ten Times', PASSWORD)).toBe(false);
    now += MINUTE;
    expect(await attempt('Ten Times', PASSWORD)).toBe(true);
    const locks = (await recordedChanges(context())).filter(({ what }) => what.endsWith('locked'));
    expect(locks.map(({ note, after }) => ({ note, after }))).toEqual([
      { note: '10 wrong passwords in a row', after: { until: '2026-11-02T06:01:00.000Z' } },
      { note: '11 wrong passwords in a row', after: { until: '2026-11-02T06:03:00.000Z' } },
    ]);
  });

  it('double the wait from one minute to one hour', () => {
    const waits = Array.from({ length: 9 }, (_, i) => waitAfter(9 + i) / MINUTE);
    expect(waits).toEqual([0, 1, 2, 4, 8, 16, 32, 60, 60]);
  });

  it('are a hundred at most, however long somebody goes on; then an administrator has to help', async () => {
    const person = await addPerson(context(), 'viewer', 'Hundred Times');
    let looked = 0;
    for (let i = 0; i < 130; i++) {
      const before = (await account('Hundred Times')).failedSignIns;
      await attempt('Hundred Times', 'wrong wrong wrong');
      if ((await account('Hundred Times')).failedSignIns > before) looked++;
      now += 61 * MINUTE;
    }
    expect(looked).toBe(100);
    now += 30 * 24 * 60 * MINUTE;
    expect(await attempt('Hundred Times', PASSWORD)).toBe(false);
    await changePerson(context(), { id: person.id, revision: person.revision, what: 'unlock' });
    expect(await attempt('Hundred Times', PASSWORD)).toBe(true);
  });

  it('at the same moment are counted each: no more than ten are looked at', async () => {
    await addPerson(context(), 'viewer', 'All At Once');
    await Promise.all(Array.from({ length: 25 }, () => attempt('All At Once', 'wrong wrong wrong')));
    expect((await account('All At Once')).failedSignIns).toBe(10);
  });

  it('of one address are limited whatever the account', () => {
    const failed = new FailedAddresses();
    for (let i = 0; i < MOST_PER_ADDRESS; i++) {
      failed.check('10.9.9.9', now);
      failed.note('10.9.9.9', now + i);
    }
    expect(() => failed.check('10.9.9.9', now + 60_000)).toThrow(/Too many sign-ins/);
    expect(() => failed.check('10.9.9.8', now + 60_000)).not.toThrow();
    expect(() => failed.check('10.9.9.9', now + WINDOW_MS)).not.toThrow();
  });

  it('from one address are refused before anything is looked at', async () => {
    const headers = browserHeaders([], { 'x-forwarded-for': '10.8.8.8' });
    const one = () => signIn(context(), { email: 'nobody@plant.example', password: 'x' }, headers);
    for (let i = 0; i < MOST_PER_ADDRESS; i++) expect((await refusalOf(one())).code).toBe('not-signed-in');
    const told = vi.spyOn(log, 'warn');
    expect((await refusalOf(one())).code).toBe('too-many-requests');
    const blocked = { event: 'sign-in-blocked', address: '10.8.8.8' };
    expect(told).toHaveBeenCalledExactlyOnceWith(blocked, expect.any(String));
  });

  it('shut nobody out where all come from one address', async () => {
    vi.stubEnv('CLEANBY_TRUST_PROXY', '');
    vi.stubEnv('CLEANBY_LIMITS', 'sign-in=5');
    await addPerson(context(), 'viewer', 'Right Person');
    for (let i = 0; i < MOST_PER_ADDRESS + 1; i++) {
      const invented = { email: `nobody${i}@plant.example`, password: 'x' };
      expect((await refusalOf(signIn(context(), invented, browserHeaders()))).code).toBe('not-signed-in');
    }
    const right = { email: emailOf('Right Person'), password: PASSWORD };
    expect(await signIn(context(), right, browserHeaders())).not.toEqual([]);
  });
});

describe('attempts in a minute of one address', () => {
  it.each([
    ['to sign in', (sent: Headers) => signIn(context(), { email: 'nobody', password: 'x' }, sent)],
    ['to take up an invitation', (sent: Headers) => acceptInvitation(context(), INVENTED, sent)],
    ['to make the first account', (sent: Headers) => startFirst(context(), INVENTED, sent)],
  ])('%s are limited', async (way, tried) => {
    vi.stubEnv('CLEANBY_LIMITS', 'sign-in=2');
    const headers = browserHeaders([], { 'x-forwarded-for': `10.7.7.${way.length}` });
    for (let i = 0; i < 2; i++) expect((await refusalOf(tried(headers))).code).not.toBe('too-many-requests');
    const { code, text } = await refusalOf(tried(headers));
    expect(code).toBe('too-many-requests');
    expect(text).toMatch(/wait \d+ s/);
  });
});

const INVENTED = {
  secret: 'invented',
  code: '',
  name: 'Nobody',
  email: 'nobody@plant.example',
  password: 'x',
};
