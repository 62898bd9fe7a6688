import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { GET as comeBack } from '@/app/sign-in/provider/callback/route';
import { GET as begin } from '@/app/sign-in/provider/route';
import { identify } from '@/lib/auth/identify';
import { identityProvider, roleOfClaims } from '@/lib/auth/identity-provider';
import { closeContext, openContext } from '@/lib/work/context';
import { changePerson } from '@/lib/work/people/change-person';
import { addPerson, browserHeaders, emailOf, recordedChanges } from '../support/people';
import { CLIENT, SmallIdentityProvider } from '../support/small-identity-provider';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

vi.hoisted(() => {
  process.env.CLEANBY_LOG_LEVEL = 'silent';
});
vi.mock('@/lib/auth/password-hash', () => import('../support/plain-hash'));

const HERE = 'http://127.0.0.1:4000';
const provider = new SmallIdentityProvider();
let database: TemporaryDatabase;

beforeAll(async () => {
  await provider.start();
  database = await temporaryDatabase();
  vi.stubEnv('DATABASE_URL', database.url);
  vi.stubEnv('CLEANBY_ORIGIN', HERE);
  vi.stubEnv('CLEANBY_OIDC_ISSUER', provider.issuer);
  vi.stubEnv('CLEANBY_OIDC_CLIENT_ID', CLIENT.id);
  vi.stubEnv('CLEANBY_OIDC_CLIENT_SECRET', CLIENT.secret);
  vi.stubEnv('CLEANBY_OIDC_ROLE_CLAIM', 'roles');
});
afterAll(async () => {
  vi.unstubAllEnvs();
  await database.remove();
  await provider.stop();
});
beforeEach(() => {
  provider.spoil = {};
  provider.signsWithStrangeKey = false;
});

type Round = { location: string; cookies: string[] };

async function sent(response: Promise<Response>): Promise<Round> {
  const { status, headers } = await response;
  expect(status).toBe(303);
  return { location: headers.get('location')!, cookies: headers.getSetCookie() };
}

/** What a browser does: to the provider, and back with the cookie it was given; `change` may meddle with the way back. */
async function goRound(to: string, change: (back: URL) => void = () => {}): Promise<Round> {
  const away = await sent(
    begin(new Request(`${HERE}/sign-in/provider?to=${to}`, { headers: browserHeaders() })),
  );
  const atProvider = await fetch(away.location, { redirect: 'manual' });
  const back = new URL(atProvider.headers.get('location')!);
  expect(back.origin + back.pathname).toBe(`${HERE}/sign-in/provider/callback`);
  change(back);
  const headers = browserHeaders(away.cookies, {
    'sec-fetch-site': 'cross-site',
    'sec-fetch-mode': 'navigate',
  });
  return sent(comeBack(new Request(back, { headers })));
}

async function whoIs({ cookies }: Round) {
  const { store, now } = database.context;
  return identify(store, browserHeaders(cookies), now());
}

function person(subject: string, more: Record<string, unknown> = {}): Record<string, unknown> {
  const email = `${subject}@plant.example`;
  return { sub: subject, email, email_verified: true, name: `Person ${subject}`, ...more };
}

describe('signing in by the plant’s identity provider', () => {
  it('goes there and back, makes the account with the role it states, and leads to the page asked for', async () => {
    provider.claims = person('anna', { roles: ['everybody', 'Engineer', 'viewer'] });
    const round = await goRound('%2Fplan%3Fsite%3D1');
    expect(round.location).toBe('/plan?site=1');
    const visitor = await whoIs(round);
    expect(visitor?.actor.name).toBe('Person anna');
    expect(visitor?.role).toBe('engineer');
    const changes = (await recordedChanges(database.context)).filter(({ what }) => what.includes('anna@'));
    expect(changes.map(({ actor, what }) => `${actor}: ${what}`)).toEqual([
      'identity provider: account anna@plant.example added',
      'Person anna: account anna@plant.example signed-in',
    ]);
  });

  it('knows the person again, and takes a changed role', async () => {
    provider.claims = person('bela', { roles: 'viewer' });
    await goRound('/');
    provider.claims = person('bela', { roles: 'planner', email: 'bela.new@plant.example' });
    const visitor = await whoIs(await goRound('/'));
    expect(visitor?.role).toBe('planner');
    expect(await database.context.store.entities.user.count({ where: { name: 'Person bela' } })).toBe(1);
    expect(await recordedChanges(database.context)).toContainEqual({
      actor: 'identity provider',
      what: 'account bela@plant.example changed',
      before: { role: 'viewer' },
      after: { role: 'planner' },
      note: null,
    });
  });

  it('keeps none of the provider’s tokens', async () => {
    const accounts = await database.context.store.entities.account.findMany({
      where: { providerId: 'oidc' },
    });
    expect(accounts.length).toBeGreaterThan(0);
    for (const { accessToken, refreshToken, idToken } of accounts) {
      expect([accessToken, refreshToken, idToken]).toEqual([null, null, null]);
    }
  });

  it('opens an account that is there only where the provider has verified the address', async () => {
    const known = await addPerson(database.context, 'manager', 'Carla');
    provider.claims = person('carla', { email_verified: false, roles: 'manager' });
    const unverified = await goRound('/');
    expect(unverified.location).toBe('/sign-in?problem=provider');
    expect(await whoIs(unverified)).toBeNull();
    provider.claims = person('carla', { roles: 'manager' });
    const visitor = await whoIs(await goRound('/'));
    expect(visitor?.actor.id).toBe(known.id);
    expect(await recordedChanges(database.context)).toContainEqual(
      expect.objectContaining({
        what: `account ${emailOf('Carla')} changed`,
        note: 'opened to the identity provider',
      }),
    );
  });

  it('makes no account for an address that is not verified', async () => {
    provider.claims = person('dora', { email_verified: false });
    expect((await goRound('/')).location).toBe('/sign-in?problem=provider');
    expect(await database.context.store.entities.user.count({ where: { email: 'dora@plant.example' } })).toBe(
      0,
    );
  });

  it('lets nobody into a disabled account', async () => {
    provider.claims = person('emil', { roles: 'viewer' });
    const first = await whoIs(await goRound('/'));
    const { store } = database.context;
    const { id, revision } = await store.entities.user.findUniqueOrThrow({ where: { id: first!.actor.id! } });
    await changePerson(database.context, { id, revision, what: 'disable' });
    const round = await goRound('/');
    expect(round.location).toBe('/sign-in?problem=disabled');
    expect(await whoIs(round)).toBeNull();
    expect(await store.entities.session.count({ where: { userId: id } })).toBe(0);
  });

  it.each([
    ['a token signed by another key', () => (provider.signsWithStrangeKey = true)],
    ['a token for another program', () => (provider.spoil = { aud: 'somebody else' })],
    ['a token of another provider', () => (provider.spoil = { iss: 'https://elsewhere.example' })],
    ['a token that is out of date', () => (provider.spoil = { exp: 1 })],
    ['a token for another sign-in', () => (provider.spoil = { nonce: 'another' })],
  ])('does not believe %s', async (_case, spoil) => {
    provider.claims = person('fritz');
    spoil();
    const round = await goRound('/');
    expect(round.location).toBe('/sign-in?problem=provider');
    expect(await whoIs(round)).toBeNull();
    expect(
      await database.context.store.entities.user.count({ where: { email: 'fritz@plant.example' } }),
    ).toBe(0);
  });

  it.each([
    ['another state', (back: URL) => back.searchParams.set('state', 'A'.repeat(32))],
    ['no state', (back: URL) => back.searchParams.delete('state')],
    ['another code', (back: URL) => back.searchParams.set('code', 'guessed')],
    ['a refusal', (back: URL) => back.searchParams.set('error', 'access_denied')],
  ])('takes nobody who comes back with %s', async (_case, change) => {
    provider.claims = person('greta');
    const round = await goRound('/', change);
    expect(round.location).toBe('/sign-in?problem=provider');
    expect(await whoIs(round)).toBeNull();
  });

  it('takes nobody whose browser did not set out from here', async () => {
    provider.claims = person('hanna');
    const away = await sent(begin(new Request(`${HERE}/sign-in/provider`, { headers: browserHeaders() })));
    const back = (await fetch(away.location, { redirect: 'manual' })).headers.get('location')!;
    const round = await sent(comeBack(new Request(back, { headers: browserHeaders() })));
    expect(round.location).toBe('/sign-in?problem=provider');
    expect(await whoIs(round)).toBeNull();
  });

  it('leads to no page of another site', async () => {
    provider.claims = person('ida');
    expect((await goRound('https%3A%2F%2Felsewhere.example')).location).toBe('/');
    expect((await goRound('%2F%2Felsewhere.example')).location).toBe('/');
  });
});

describe('what the environment says of a provider', () => {
  it('is checked, and what is wrong is named', () => {
    vi.stubEnv('CLEANBY_OIDC_ISSUER', 'http://idp.plant.example');
    expect(() => identityProvider()).toThrow(/CLEANBY_OIDC_ISSUER/);
    vi.stubEnv('CLEANBY_OIDC_ISSUER', provider.issuer);
    vi.stubEnv('CLEANBY_OIDC_CLIENT_SECRET', '');
    expect(() => identityProvider()).toThrow(/CLEANBY_OIDC_CLIENT_SECRET/);
    vi.stubEnv('CLEANBY_OIDC_CLIENT_SECRET', CLIENT.secret);
    vi.stubEnv('CLEANBY_OIDC_DEFAULT_ROLE', 'boss');
    expect(() => identityProvider()).toThrow(/CLEANBY_OIDC_DEFAULT_ROLE/);
    vi.stubEnv('CLEANBY_OIDC_ISSUER', '');
    expect(identityProvider()).toBeNull();
  });

  it('gives of several roles the one that may do most, and the default where none is ours', () => {
    const settings = { roleClaim: 'groups', defaultRole: 'viewer' as const };
    expect(roleOfClaims(settings, { groups: ['planner', 'engineer'] })).toBe('planner');
    expect(roleOfClaims(settings, { groups: 'staff' })).toBe('viewer');
    expect(roleOfClaims(settings, {})).toBe('viewer');
    expect(roleOfClaims({ ...settings, roleClaim: null }, { groups: 'administrator' })).toBeNull();
  });
});

it('a provider that does not answer holds nobody up who signs in otherwise', async () => {
  vi.stubEnv('CLEANBY_OIDC_ISSUER', 'http://127.0.0.1:9');
  vi.stubEnv('CLEANBY_OIDC_DEFAULT_ROLE', 'viewer');
  const other = await temporaryDatabase();
  vi.stubEnv('DATABASE_URL', other.url);
  const away = await sent(begin(new Request(`${HERE}/sign-in/provider`, { headers: browserHeaders() })));
  expect(away.location).toBe('/sign-in?problem=provider');
  const context = await openContext(other.url);
  expect(await identify(context.store, browserHeaders(['x=y']), 0)).toBeNull();
  await closeContext(context);
});
