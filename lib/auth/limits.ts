import { createHash } from 'node:crypto';
import type { Actor } from '@/lib/contract/actor';
import { TooManyRequests } from '@/lib/contract/too-many-requests';
import { ownAddress } from './caller';
import { RateLimit, type Standing } from './rate-limit';
import { isToken } from './tokens';

/**
 * Requests per minute that are let through, and imports of one caller at a time. Generous: they stop a program that runs wild, not
 * a page that asks for several things at once. CLEANBY_LIMITS sets others: "address=3000,token=1200,sign-in=20".
 */
export const USUAL_LIMITS = {
  /** Of one address, whoever asks; without a proxy that is believed, of what is sent to be known by. */
  address: 3000,
  /** Of one token. */
  token: 1200,
  /** Plans, evaluations and previews of one caller. */
  expensive: 120,
  /** Attempts to sign in from one address. */
  'sign-in': 20,
  /** Imports of one caller under way at the same time. */
  imports: 4,
} as const;

export type LimitName = keyof typeof USUAL_LIMITS;

const WINDOW_MS = 60_000;
/** Addresses or tokens remembered of each limit: a few MiB at the most. */
const MOST_KEYS = 20_000;

const HELD = Symbol.for('cleanby.limits');
type Kept = { set: string | undefined; limits: Map<LimitName, RateLimit>; underWay: Map<string, number> };
type Holder = { [HELD]?: Kept };

/** What this process has counted; the development server loads modules anew, which must not forget it. */
function kept(): Kept {
  const holder = globalThis as Holder;
  const set = process.env.CLEANBY_LIMITS;
  if (holder[HELD]?.set !== set) holder[HELD] = undefined;
  holder[HELD] ??= { set, limits: new Map(), underWay: new Map() };
  return holder[HELD];
}

/** The limit that is in force. */
export function limitOf(name: LimitName, set = process.env.CLEANBY_LIMITS ?? ''): number {
  for (const entry of set.split(',')) {
    const [key, count] = entry.split('=').map((part) => part.trim());
    if (key === name && /^[1-9]\d{0,8}$/.test(count ?? '')) return Number(count);
  }
  return USUAL_LIMITS[name];
}

function take(name: LimitName, key: string): Standing {
  const { limits } = kept();
  let limit = limits.get(name);
  if (limit === undefined) {
    limit = new RateLimit({ name, quota: limitOf(name), windowMs: WINDOW_MS, mostKeys: MOST_KEYS });
    limits.set(name, limit);
  }
  return limit.take(key, performance.now());
}

function refuse(standing: Standing, what: string): void {
  if (standing.retryAfter !== null) throw new TooManyRequests(what, standing.retryAfter);
}

/** Counts a request before anything is looked up for it; the limits that count it, for the headers of the answer. */
export function takeRequest(headers: Headers): Standing[] {
  const standings = [take('address', ownAddress(headers) ?? keyOfSent(headers))];
  const authorization = headers.get('authorization');
  if (isToken(authorization)) standings.push(take('token', digest(authorization)));
  return standings;
}

/**
 * Who asks, where all come from one address: whoever sends a token or a session is counted by it, so that those who send none,
 * or invent some, use up nothing of theirs.
 */
function keyOfSent(headers: Headers): string {
  return digest(`${headers.get('authorization') ?? ''}\n${headers.get('cookie') ?? ''}`);
}

/** @throws TooManyRequests where one of the limits is used up */
export function refuseTooMany(standings: Standing[]): void {
  for (const standing of standings) {
    refuse(standing, `More than ${standing.quota} requests in a minute of one ${standing.name}`);
  }
}

/** Counts something that takes the machine long, by who asks. @throws TooManyRequests */
export function takeExpensive(actor: Actor): void {
  refuse(take('expensive', keyOf(actor)), 'Plans, evaluations and previews are asked for too often');
}

/**
 * Counts an attempt to sign in, before the password is looked at: by the address of its own (`ownAddress`) it comes from.
 *
 * @throws TooManyRequests
 */
export function takeSignInAttempt(address: string): void {
  refuse(take('sign-in', address), 'Too many attempts to sign in from this address');
}

/** Begins an import of a caller; call what it gives when it has ended. @throws TooManyRequests */
export function beginImport(actor: Actor): () => void {
  const { underWay } = kept();
  const who = keyOf(actor);
  const count = underWay.get(who) ?? 0;
  if (count >= limitOf('imports')) throw new TooManyRequests(`${count} imports of yours are under way`, 5);
  underWay.set(who, count + 1);
  let hasEnded = false;
  return () => {
    if (hasEnded) return;
    hasEnded = true;
    const left = (underWay.get(who) ?? 1) - 1;
    if (left > 0) underWay.set(who, left);
    else underWay.delete(who);
  };
}

function keyOf({ kind, id, name }: Actor): string {
  return `${kind} ${id ?? name}`;
}

/** Keys are kept as digests: what callers send may be long, and may be a secret. */
function digest(text: string): string {
  return createHash('sha256').update(text).digest('base64url');
}
