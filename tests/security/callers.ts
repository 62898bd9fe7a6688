import { randomUUID } from 'node:crypto';
import { ROLES, TOKEN_SCOPES } from '@/lib/auth/rights';
import { closeSession, openSession } from '@/lib/auth/sessions';
import { makeTokenSecret } from '@/lib/auth/token-secret';
import { addToken, revokeToken } from '@/lib/store/entities/api-tokens';
import { insertPerson, updatePerson } from '@/lib/store/entities/people';
import type { Store } from '@/lib/store/open-store';
import type { Context } from '@/lib/work/context';

/** Somebody who asks: with which headers, and as whom the table of who may do what has them. */
export type Caller = { name: string; column: string; headers: Record<string, string> };

const DAY = 86_400_000;

/** Everybody a server can be asked by: nobody, each role, tokens of each kind, and what once was somebody. */
export async function makeCallers(context: Context, programs: Caller[]): Promise<Caller[]> {
  const { store } = context;
  const people = await Promise.all(ROLES.map((role) => personOf(store, role)));
  const former = {
    'a disabled administrator': await disabledPerson(store),
    'an administrator who signed out': await formerPerson(store),
    'a cookie with a signature of another server': forged(await cookieOf(store, 'administrator')),
    'a cookie without a signature': unsigned(await cookieOf(store, 'administrator')),
  };
  return [{ name: 'nobody', column: 'nobody', headers: {} }, ...people, ...programs, ...asNobody(former)];
}

/** Tokens of every kind, those that hold no longer with every scope there is. */
export async function makePrograms(context: Context): Promise<Caller[]> {
  const now = context.now();
  const scopes = [...TOKEN_SCOPES];
  const held = scopes.map(async (scope) => ({
    name: `a token with the scope ${scope}`,
    column: `token:${scope}`,
    headers: await tokenWith(context, { scopes: [scope] }),
  }));
  const bare = { name: 'a token without a scope', column: 'token:none' };
  const none = {
    'a token that has expired': await tokenWith(context, { scopes, expiresAt: now - DAY }),
    'a token that was revoked': await tokenWith(context, { scopes, revokedAt: now - DAY }),
    'a token of another server': { authorization: `Bearer ${makeTokenSecret().secret}` },
    'no token but a word': { authorization: 'Bearer letmein' },
    'a name and a password': { authorization: `Basic ${btoa('admin:admin')}` },
  };
  return [
    ...(await Promise.all(held)),
    { ...bare, headers: await tokenWith(context, { scopes: [] }) },
    ...asNobody(none),
  ];
}

/** Those who get no further than nobody does. */
function asNobody(strangers: Record<string, Record<string, string>>): Caller[] {
  return Object.entries(strangers).map(([name, headers]) => ({ name, column: 'nobody', headers }));
}

export async function personOf(store: Store, role: string): Promise<Caller> {
  return { name: role, column: role, headers: { ...(await signedIn(store, role)).headers } };
}

async function disabledPerson(store: Store) {
  const { id, headers } = await signedIn(store, 'administrator');
  await updatePerson(store.entities, { id, revision: 0 }, { disabledAt: new Date() });
  return headers;
}

async function formerPerson(store: Store) {
  const { headers } = await signedIn(store, 'administrator');
  await closeSession(store, new Headers({ host: 'localhost:4000', ...headers }));
  return headers;
}

async function cookieOf(store: Store, role: string): Promise<string> {
  return (await signedIn(store, role)).headers.cookie;
}

/** A person with an account and a session begun through the same door as any other. */
async function signedIn(store: Store, role: string): Promise<{ id: string; headers: { cookie: string } }> {
  const id = randomUUID();
  const person = { id, name: `The ${role}`, email: `${id}@plant.example`, role, at: Date.now() };
  await insertPerson(store.entities, person);
  const given = await openSession(store, id, new Headers({ host: 'localhost:4000' }));
  return { id, headers: { cookie: given.map((cookie) => cookie.split(';')[0]).join('; ') } };
}

type Kept = { scopes: string[]; expiresAt?: number | null; revokedAt?: number };

async function tokenWith(context: Context, { scopes, expiresAt = null, revokedAt }: Kept) {
  const { entities } = context.store;
  const { secret, ...kept } = makeTokenSecret();
  const made = { ...kept, name: 'walk', scopes, createdBy: 'walk', createdAt: 0, expiresAt };
  const { id } = await addToken(entities, made);
  if (revokedAt !== undefined) await revokeToken(entities, id, { at: revokedAt, by: 'walk' });
  return { authorization: `Bearer ${secret}` };
}

/** The same session under a signature that this server did not make. */
function forged(cookie: string): { cookie: string } {
  return resigned(cookie, (signature) => `.${[...signature].reverse().join('')}`);
}

function unsigned(cookie: string): { cookie: string } {
  return resigned(cookie, () => '');
}

function resigned(cookie: string, change: (signature: string) => string): { cookie: string } {
  const [name, value] = cookie.split('=', 2) as [string, string];
  const [session, signature] = decodeURIComponent(value).split('.', 2) as [string, string];
  return { cookie: `${name}=${encodeURIComponent(session + change(signature))}` };
}
