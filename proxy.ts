import { type NextRequest, NextResponse } from 'next/server';
import { isKnownHost } from './app/known-host';

// Pages and their actions under a foreign name resolved to this machine (DNS rebinding) are refused; routes under /api
// guard themselves, for a body that passes through here would be buffered.
export const config = { matcher: '/((?!api/).*)' };

export function proxy(request: NextRequest): NextResponse {
  const host = request.headers.get('host') ?? '';
  if (isKnownHost(host)) return NextResponse.next();
  return new NextResponse(
    'This server does not answer under that name. Use localhost, or list it in CLEANBY_HOSTS.',
    {
      status: 403,
      headers: { 'Content-Type': 'text/plain; charset=utf-8' },
    },
  );
}
