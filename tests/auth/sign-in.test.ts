import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { identify } from '@/lib/auth/identify';
import { ABSOLUTE_LIMIT_MS, IDLE_LIMIT_MS } from '@/lib/auth/session-limits';
import { signIn } from '@/lib/work/people/sign-in';
import { signOut } from '@/lib/work/people/sign-out';
import { addPerson, browserHeaders, emailOf, PASSWORD, recordedChanges, refusalOf } from '../support/people';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

vi.hoisted(() => {
  process.env.CLEANBY_LOG_LEVEL = 'silent';
});

let database: TemporaryDatabase;
const NAME = 'Test Engineer';
const CREDENTIALS = { email: emailOf(NAME), password: PASSWORD };

beforeAll(async () => {
  database = await temporaryDatabase();
  await addPerson(database.context, 'engineer', NAME);
});
afterAll(() => database.remove());
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllEnvs();
});

/** Name of the person whom the server takes a browser's owner for. */
async function whoIs(cookies: string[]): Promise<string | null> {
  const { store, now } = database.context;
  return (await identify(store, browserHeaders(cookies), now()))?.actor.name ?? null;
}

function moveClock(ms: number): void {
  vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + ms });
}

describe('signing in', () => {
  it('gives a session by which the server knows the person, until that one signs out', async () => {
    const { context } = database;
    const shouted = { ...CREDENTIALS, email: ` ${CREDENTIALS.email.toUpperCase()} ` };
    const cookies = await signIn(context, shouted, browserHeaders());
    expect(await whoIs(cookies)).toBe(NAME);
    expect((await recordedChanges(context)).at(-1)).toMatchObject({
      actor: NAME,
      what: `account ${CREDENTIALS.email} signed-in`,
    });
    const ended = await signOut(context, browserHeaders(cookies));
    expect(ended.some((line) => /session_token=;.*Max-Age=0/i.test(line))).toBe(true);
    expect(await whoIs(cookies)).toBeNull();
  });

  it('makes a new session each time and ends the one the browser had', async () => {
    const { context } = database;
    const first = await signIn(context, CREDENTIALS, browserHeaders());
    const second = await signIn(context, CREDENTIALS, browserHeaders(first));
    expect(second[0]).not.toBe(first[0]);
    expect(await whoIs(first)).toBeNull();
    expect(await whoIs(second)).toBe(NAME);
  });

  it('keeps the cookie from scripts and from other sites', async () => {
    const [cookie] = await signIn(database.context, CREDENTIALS, browserHeaders());
    const attributes = cookie!.split('; ').slice(1);
    expect(attributes).toEqual(
      expect.arrayContaining(['HttpOnly', 'SameSite=Lax', 'Path=/', 'Max-Age=604800']),
    );
    expect(cookie).not.toContain('Domain');
  });

  it.each([
    ['an address by https is stated', { CLEANBY_ORIGIN: 'https://cleanby.plant.example' }, {}],
    ['the plant’s proxy says https', { CLEANBY_TRUST_PROXY: '1' }, { 'x-forwarded-proto': 'https' }],
  ])('binds the cookie to https and this host where %s', async (_case, environment, sent) => {
    for (const [name, value] of Object.entries(environment)) vi.stubEnv(name, value);
    const cookies = await signIn(
      database.context,
      CREDENTIALS,
      browserHeaders([], sent as Record<string, string>),
    );
    expect(cookies[0]).toMatch(/^__Host-cleanby\.session_token=/);
    expect(cookies[0]!.split('; ')).toContain('Secure');
    const headers = browserHeaders(cookies, sent as Record<string, string>);
    expect(await identify(database.context.store, headers, 0)).not.toBeNull();
  });

  it('does not believe https that nobody in front vouches for', async () => {
    const sent = { 'x-forwarded-proto': 'https' };
    const [cookie] = await signIn(database.context, CREDENTIALS, browserHeaders([], sent));
    expect(cookie).toMatch(/^cleanby\.session_token=/);
  });

  it('takes no cookie whose signature was changed', async () => {
    const [cookie] = await signIn(database.context, CREDENTIALS, browserHeaders());
    const token = /=([^;.]+)/.exec(cookie!)![1]!;
    expect(await whoIs([`cleanby.session_token=${token}`])).toBeNull();
    expect(await whoIs([`cleanby.session_token=${token}.${'A'.repeat(43)}%3D`])).toBeNull();
  });
});

describe('a session', () => {
  it('ends when nobody has used it for 12 hours', async () => {
    const cookies = await signIn(database.context, CREDENTIALS, browserHeaders());
    moveClock(IDLE_LIMIT_MS - 60_000);
    expect(await whoIs(cookies)).toBe(NAME);
    moveClock(IDLE_LIMIT_MS + 60_000);
    expect(await whoIs(cookies)).toBeNull();
    vi.useRealTimers();
    // It is gone for good, not only out of date.
    expect(await whoIs(cookies)).toBeNull();
  });

  it('ends 7 days after signing in though it is used all the time', async () => {
    const cookies = await signIn(database.context, CREDENTIALS, browserHeaders());
    const start = Date.now();
    const seen: (string | null)[] = [];
    for (let hours = 6; hours <= 174; hours += 6) {
      vi.useFakeTimers({ toFake: ['Date'], now: start + hours * 3_600_000 });
      seen.push(await whoIs(cookies));
      await lastUseIsNoted(start + hours * 3_600_000, seen.at(-1) !== null);
    }
    const lastUsed = seen.lastIndexOf(NAME);
    expect((lastUsed + 1) * 6 * 3_600_000).toBeLessThanOrEqual(ABSOLUTE_LIMIT_MS);
    expect((lastUsed + 2) * 6 * 3_600_000).toBeGreaterThanOrEqual(ABSOLUTE_LIMIT_MS);
    expect(seen.at(-1)).toBeNull();
  });
});

/** Use is written down behind the answer: waits for it. */
async function lastUseIsNoted(at: number, isExpected: boolean): Promise<void> {
  if (!isExpected) return;
  await vi.waitFor(async () => {
    const { store } = database.context;
    expect(await store.entities.session.count({ where: { updatedAt: new Date(at) } })).toBe(1);
  });
}

describe('who cannot sign in', () => {
  it('learns nothing of who has an account: same answer, same work', async () => {
    const { context } = database;
    await addPerson(context, 'viewer', 'Without Luck');
    const open = { email: emailOf('Without Luck'), password: 'wrong wrong wrong wrong' };
    const known = await refusalOf(signIn(context, open, browserHeaders()));
    const unknown = await refusalOf(
      signIn(context, { ...open, email: 'nobody@plant.example' }, browserHeaders()),
    );
    const noAddress = await refusalOf(signIn(context, { ...open, email: 'nobody' }, browserHeaders()));
    expect(unknown).toEqual(known);
    expect(noAddress).toEqual(known);
    expect(known.code).toBe('not-signed-in');
  });

  it('takes about as long without an account as with one', async () => {
    const { context } = database;
    const time = async (email: string) => {
      const begun = performance.now();
      await refusalOf(signIn(context, { email, password: 'wrong wrong wrong wrong' }, browserHeaders()));
      return performance.now() - begun;
    };
    const pairs: [number, number][] = [];
    for (let i = 0; i < 3; i++)
      pairs.push([await time(emailOf('Without Luck')), await time('none@plant.example')]);
    const fastest = [0, 1].map((side) => Math.min(...pairs.map((pair) => pair[side]!)));
    // Hashing is nearly all of it; without it the unknown one would take a hundredth.
    expect(fastest[1]! / fastest[0]!).toBeGreaterThan(0.5);
    expect(fastest[1]! / fastest[0]!).toBeLessThan(2);
  });

  it('is told that the account is disabled only with its password', async () => {
    const { context } = database;
    const { id, email } = await addPerson(context, 'viewer', 'Gone Home');
    await context.store.entities.user.update({ where: { id }, data: { disabledAt: new Date() } });
    const right = await refusalOf(signIn(context, { email, password: PASSWORD }, browserHeaders()));
    expect(right.text).toContain('disabled');
    const wrong = await refusalOf(signIn(context, { email, password: `${PASSWORD}!` }, browserHeaders()));
    expect(wrong.text).not.toContain('disabled');
  });
});
