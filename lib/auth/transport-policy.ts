import type { IncomingHttpHeaders, ServerResponse } from 'node:http';
import { isReachedByHttps } from './caller';

/** A year, the least that counts; for names below this one too. */
const TRANSPORT_POLICY = 'max-age=31536000; includeSubDomains';

/** Tells a browser that came by https never to come otherwise, with every answer whatever makes it (RFC 6797 7.2: only then). */
export function stateTransport(request: { headers: IncomingHttpHeaders }, response: ServerResponse): void {
  const stated = request.headers['x-forwarded-proto'];
  const headers = new Headers(stated === undefined ? {} : { 'x-forwarded-proto': `${stated}` });
  if (isReachedByHttps(headers)) response.setHeader('Strict-Transport-Security', TRANSPORT_POLICY);
}
