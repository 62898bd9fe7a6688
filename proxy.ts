import { type NextRequest, NextResponse } from 'next/server';
import { guardPage } from './app/api/guard';
import { INERT_POLICY, pagePolicy } from './app/content-policy';
import { askedHost } from './app/known-host';
import { makeNonce } from './lib/auth/nonce';
import { AppError } from './lib/contract/app-error';

// Pages, their actions and the files of the build. Routes under /api guard themselves, for a body that passes through here
// would be buffered.
export const config = { matcher: '/((?!api/).*)' };

export function proxy(request: NextRequest): NextResponse {
  const refusal = refusalOf(request);
  const policy = refusal === null && !isBuilt(request) ? pagePolicy(makeNonce()) : INERT_POLICY;
  const response = refusal ?? NextResponse.next({ request: { headers: passedOn(request, policy) } });
  response.headers.set('Content-Security-Policy', policy);
  return response;
}

function isBuilt({ nextUrl }: NextRequest): boolean {
  return nextUrl.pathname.startsWith('/_next/');
}

/** Next writes the nonce of the policy it finds here into its scripts, and compares an action's origin with the host named here. */
function passedOn(request: NextRequest, policy: string): Headers {
  const headers = new Headers(request.headers);
  headers.set('Content-Security-Policy', policy);
  headers.set('X-Forwarded-Host', askedHost(request.headers));
  // A page knows only the pattern of its path; after signing in people go back to what they asked for.
  headers.set('X-Cleanby-Page', request.nextUrl.pathname + request.nextUrl.search);
  return headers;
}

function refusalOf(request: NextRequest): NextResponse | null {
  try {
    guardPage(request);
    return null;
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const remedies = error.faults.map(({ message }) => message).join('; ');
    return new NextResponse(`${error.message}: ${remedies}.\n`, {
      status: 403,
      headers: { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' },
    });
  }
}
