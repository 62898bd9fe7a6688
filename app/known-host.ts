/** Names of this machine itself: under these the server answers without being told to. */
const LOOPBACK_NAMES = new Set(['localhost', '127.0.0.1', '[::1]']);

/** Whether a Host header names this machine, or a name that CLEANBY_HOSTS lists. */
export function isKnownHost(host: string): boolean {
  const name = nameOf(host);
  if (name === null) return false;
  const listed = (process.env.CLEANBY_HOSTS ?? '').split(',').map((entry) => entry.trim().toLowerCase());
  return LOOPBACK_NAMES.has(name) || listed.includes(name) || listed.includes(host.toLowerCase());
}

/**
 * The host that a browser asked for. Anyone can write X-Forwarded-Host: it counts only where CLEANBY_TRUST_PROXY=1 says that a
 * proxy of the plant stands in front and writes it, and then its last entry, which is the one that proxy wrote.
 */
export function askedHost(headers: Headers): string {
  const forwarded = process.env.CLEANBY_TRUST_PROXY === '1' ? headers.get('x-forwarded-host') : null;
  return forwarded?.split(',').at(-1)?.trim() || (headers.get('host') ?? '');
}

function nameOf(host: string): string | null {
  try {
    return new URL(`http://${host}`).hostname.toLowerCase();
  } catch {
    return null;
  }
}
