/** Names of this machine itself. There is no sign-in yet, so whoever reaches the server may do everything. */
const LOOPBACK_NAMES = new Set(['localhost', '127.0.0.1', '[::1]']);

/** Whether a Host header names this machine, or a name that CLEANBY_HOSTS lists. */
export function isKnownHost(host: string): boolean {
  const name = nameOf(host);
  if (name === null) return false;
  const listed = (process.env.CLEANBY_HOSTS ?? '').split(',').map((entry) => entry.trim().toLowerCase());
  return LOOPBACK_NAMES.has(name) || listed.includes(name) || listed.includes(host.toLowerCase());
}

function nameOf(host: string): string | null {
  try {
    return new URL(`http://${host}`).hostname.toLowerCase();
  } catch {
    return null;
  }
}
