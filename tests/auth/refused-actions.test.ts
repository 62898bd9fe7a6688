import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { openPage } from '@/app/access/open-page';
import { changePasswordAction, endSessionAction, renameSelfAction } from '@/app/account/account-actions';
import { changePersonAction, inviteAction, withdrawInvitationAction } from '@/app/people/people-actions';
import { identify } from '@/lib/auth/identify';
import { makeTokenSecret } from '@/lib/auth/token-secret';
import { addToken } from '@/lib/store/entities/api-tokens';
import { endOtherSessions } from '@/lib/work/people/own-account';
import { signIn } from '@/lib/work/people/sign-in';
import { addPerson, asPerson, browserHeaders, emailOf, PASSWORD, recordedChanges } from '../support/people';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

vi.hoisted(() => {
  process.env.CLEANBY_LOG_LEVEL = 'silent';
});
vi.mock('@/lib/auth/password-hash', () => import('../support/plain-hash'));

/** What the framework would hand over of the request under way. */
let sent = new Headers();
vi.mock('next/headers', () => ({
  headers: async () => sent,
  cookies: async () => ({ toString: () => sent.get('cookie') ?? '', set() {} }),
}));
vi.mock('next/cache', () => ({ revalidatePath() {} }));

const NONE = { kind: 'none' } as const;
const BASIC = { authorization: `Basic ${btoa('plant:plant')}` };
const NAME = 'Some Viewer';

let database: TemporaryDatabase;
let cookies: string[];

beforeAll(async () => {
  database = await temporaryDatabase();
  vi.stubEnv('DATABASE_URL', database.url);
  vi.stubEnv('__NEXT_EXPERIMENTAL_AUTH_INTERRUPTS', 'true');
  await addPerson(database.context, 'viewer', NAME);
  cookies = await anotherSession();
});
afterAll(() => {
  vi.unstubAllEnvs();
  return database.remove();
});

function anotherSession(): Promise<string[]> {
  return signIn(database.context, { email: emailOf(NAME), password: PASSWORD }, browserHeaders());
}

const digestOf = (work: Promise<unknown>) =>
  work.then(
    () => 'it was not refused',
    (error: { digest?: string }) => error.digest,
  );

describe('a form sent by somebody who was signed out meanwhile', () => {
  it.each([
    ['renaming oneself', renameSelfAction],
    ['a new password', changePasswordAction],
    ['changing somebody', changePersonAction],
    ['an invitation', inviteAction],
  ])('is told how to sign in: %s', async (_what, action) => {
    sent = browserHeaders();
    expect(await action(NONE, new FormData())).toMatchObject({
      kind: 'refused',
      message: expect.stringContaining('not signed in any more'),
      errors: { session: expect.stringContaining('/sign-in') },
    });
  });

  it.each([
    ['ending a session', endSessionAction, '/account'],
    ['withdrawing an invitation', withdrawInvitationAction, '/people'],
  ])('that shows no answer leads to the page to sign in: %s', async (_what, action, page) => {
    sent = browserHeaders();
    const digest = await digestOf(action(new FormData()));
    expect(digest).toContain(`;/sign-in?to=${encodeURIComponent(page)};`);
  });
});

describe('a form sent by somebody who may not', () => {
  it('is told so in its answer', async () => {
    sent = browserHeaders(cookies);
    const refused = { kind: 'refused', message: `${NAME} may not do this` };
    expect(await changePersonAction(NONE, new FormData())).toMatchObject(refused);
    expect(await inviteAction(NONE, new FormData())).toMatchObject(refused);
    expect(await digestOf(withdrawInvitationAction(new FormData()))).toBe('NEXT_HTTP_ERROR_FALLBACK;403');
  });
});

describe('an Authorization header that is no token', () => {
  it('changes nothing for whoever is signed in, on pages and routes', async () => {
    sent = browserHeaders(cookies, BASIC);
    expect((await openPage('/account')).actor.name).toBe(NAME);
    expect((await identify(database.context.store, sent, 0))?.actor.name).toBe(NAME);
    expect(await identify(database.context.store, browserHeaders([], BASIC), 0)).toBeNull();
  });
});

describe('a token', () => {
  it('opens no page, and a wrong one breaks none', async () => {
    const { secret, ...kept } = makeTokenSecret();
    const made = { name: 'program', scopes: ['look'], createdBy: 'test', createdAt: 0, expiresAt: null };
    await addToken(database.context.store.entities, { ...kept, ...made });
    const authorization = `Bearer ${secret}`;
    sent = browserHeaders([], { authorization });
    expect((await identify(database.context.store, sent, 0))?.actor.name).toBe('program');
    expect(await digestOf(openPage('/plan'))).toContain(';/sign-in');
    sent = browserHeaders(cookies, { authorization: 'Bearer letmein' });
    expect((await openPage('/plan')).actor.name).toBe(NAME);
    await expect(identify(database.context.store, sent, 0)).rejects.toMatchObject({ code: 'not-signed-in' });
  });
});

describe('ending sessions of one’s own', () => {
  it('is written in the record', async () => {
    await Promise.all([anotherSession(), anotherSession()]);
    const person = await database.context.store.entities.user.findUniqueOrThrow({
      where: { email: emailOf(NAME) },
    });
    await endOtherSessions(asPerson(database.context, person), browserHeaders(cookies));
    expect((await recordedChanges(database.context)).at(-1)).toMatchObject({
      actor: NAME,
      what: `account ${emailOf(NAME)} changed`,
      note: '2 sessions ended',
    });
  });
});
