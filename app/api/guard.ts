import { askedHost, isKnownHost } from '@/app/known-host';
import { AppError } from '@/lib/contract/app-error';

type Asked = { method: string; url: string; headers: Headers };

/**
 * Refuses what another web site makes a browser send to a route: a Host that is no name of this machine (a foreign name resolved
 * to it: DNS rebinding) unless CLEANBY_HOSTS lists it, and requests that come from another origin's page.
 *
 * @throws AppError 'not-allowed'
 */
export function guard(request: Asked): void {
  refuseForeignHost(request);
  refuseForeignOrigin(request);
}

/**
 * The same for pages and their actions: a link from elsewhere may lead to a page, a form from elsewhere may not.
 *
 * @throws AppError 'not-allowed'
 */
export function guardPage(request: Asked): void {
  refuseForeignHost(request);
  if (request.method !== 'GET' && request.method !== 'HEAD') refuseForeignOrigin(request);
}

function refuseForeignHost(request: Asked): void {
  const host = hostOf(request);
  if (isKnownHost(host)) return;
  throw new AppError('not-allowed', `This server does not answer under the name "${host}"`, [
    { field: 'Host', message: 'use localhost, or list the name in CLEANBY_HOSTS (comma between names)' },
  ]);
}

function refuseForeignOrigin(request: Asked): void {
  const site = request.headers.get('sec-fetch-site');
  const origin = request.headers.get('origin');
  const isForeignSite = site !== null && site !== 'same-origin' && site !== 'none';
  if (isForeignSite || (origin !== null && !isOriginOf(origin, hostOf(request)))) {
    throw new AppError('not-allowed', 'Requests from pages of another site are refused', [
      { field: 'Origin', message: 'call the API from the application itself or from a program' },
    ]);
  }
}

function hostOf({ headers, url }: Asked): string {
  return headers.has('host') ? askedHost(headers) : new URL(url).host;
}

function isOriginOf(origin: string, host: string): boolean {
  try {
    return new URL(origin).host.toLowerCase() === new URL(`http://${host}`).host.toLowerCase();
  } catch {
    return false;
  }
}
