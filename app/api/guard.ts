import { isKnownHost } from '@/app/known-host';
import { AppError } from '@/lib/contract/app-error';

/**
 * Refuses what another web site makes a browser send: a Host that is no name of this machine (a foreign name resolved to
 * it: DNS rebinding) unless CLEANBY_HOSTS lists it, and requests that come from another origin's page.
 *
 * @throws AppError 'not-allowed'
 */
export function guard(request: Request): void {
  const host = request.headers.get('host') ?? new URL(request.url).host;
  if (!isKnownHost(host)) {
    throw new AppError('not-allowed', `This server does not answer under the name "${host}"`, [
      { field: 'Host', message: 'use localhost, or list the name in CLEANBY_HOSTS (comma between names)' },
    ]);
  }
  const site = request.headers.get('sec-fetch-site');
  const origin = request.headers.get('origin');
  const isForeignSite = site !== null && site !== 'same-origin' && site !== 'none';
  if (isForeignSite || (origin !== null && !isOriginOf(origin, host))) {
    throw new AppError('not-allowed', 'Requests from pages of another site are refused', [
      { field: 'Origin', message: 'call the API from the application itself or from a program' },
    ]);
  }
}

function isOriginOf(origin: string, host: string): boolean {
  try {
    return new URL(origin).host.toLowerCase() === new URL(`http://${host}`).host.toLowerCase();
  } catch {
    return false;
  }
}
