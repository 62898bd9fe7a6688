import { isIP } from 'node:net';
import { publicOrigin } from './public-origin';

/** Names and addresses of this machine itself. */
const LOOPBACK_NAMES = new Set(['localhost', '127.0.0.1', '[::1]', '::1', '::ffff:127.0.0.1']);

/** Settings that only a server needs which is reached from other machines. */
const OF_ELSEWHERE = ['CLEANBY_HOSTS', 'CLEANBY_ORIGIN', 'CLEANBY_TRUST_PROXY'];

/** Where whoever asks is not known by an address of their own: no proxy that may be believed writes it down. */
const DIRECT = 'direct';

/** The address a request came from, as the plant's proxy wrote it down; entries before its own are whatever the caller says. */
export function callerAddress(headers: Headers): string {
  if (process.env.CLEANBY_TRUST_PROXY !== '1') return DIRECT;
  const last = lastEntry(headers, 'x-forwarded-for');
  return isIP(last) === 0 ? DIRECT : last;
}

/** The same, where it is the caller's own; null where everybody looks alike: what one of them does must not shut out the others. */
export function ownAddress(headers: Headers): string | null {
  const address = callerAddress(headers);
  return address === DIRECT ? null : address;
}

/** Whether whoever asks came by https, so that cookies can be kept to it. */
export function isReachedByHttps(headers: Headers): boolean {
  if (publicOrigin()?.protocol === 'https:') return true;
  return process.env.CLEANBY_TRUST_PROXY === '1' && lastEntry(headers, 'x-forwarded-proto') === 'https';
}

/** Scheme and name under which whoever asks reached this server; for links that are handed on. */
export function reachedOrigin(headers: Headers): string {
  const stated = publicOrigin();
  if (stated !== null) return stated.origin;
  // proxy.ts has judged the name and written it down here, whatever the caller sent.
  const host = headers.get('x-forwarded-host') ?? headers.get('host') ?? 'localhost';
  return `${isReachedByHttps(headers) ? 'https' : 'http'}://${host}`;
}

/**
 * Whether a request surely comes from this machine: the server listens to nothing else (CLEANBY_BIND, stated by the command
 * that serves), no setting says that people reach it from elsewhere, the address asked for names this machine, and no server
 * in front says that it came from elsewhere. A plain server in front says nothing at all: the settings are what tells of it.
 */
export function isFromThisMachine(headers: Headers): boolean {
  const passed = (headers.get('x-forwarded-for') ?? '').split(',').map((entry) => entry.trim());
  return (
    LOOPBACK_NAMES.has(process.env.CLEANBY_BIND ?? '') &&
    !OF_ELSEWHERE.some((name) => (process.env[name] ?? '').trim() !== '') &&
    LOOPBACK_NAMES.has(hostName(headers.get('host') ?? '')) &&
    passed.every((address) => address === '' || LOOPBACK_NAMES.has(address)) &&
    !headers.has('forwarded')
  );
}

function lastEntry(headers: Headers, name: string): string {
  return headers.get(name)?.split(',').at(-1)?.trim() ?? '';
}

function hostName(host: string): string {
  try {
    return new URL(`http://${host}`).hostname.toLowerCase();
  } catch {
    return '';
  }
}
