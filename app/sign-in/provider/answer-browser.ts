import { guardPage } from '@/app/api/guard';
import { routeRule } from '@/lib/auth/rules';
import { NOBODY } from '@/lib/contract/actor';
import { AppError } from '@/lib/contract/app-error';
import { actingAs, type Context, openContext } from '@/lib/work/context';
import { log } from '@/lib/work/log';

type Onward = { to: string; cookies: string[] };

/**
 * Answers a browser on its way to or from the identity provider: it goes on to where `work` says, or back to the sign-in page, which
 * says why. Such a request may come from another site; that it belongs to this browser is what state and nonce prove.
 */
export async function answerBrowser(
  request: Request,
  work: (context: Context) => Promise<Onward>,
): Promise<Response> {
  try {
    guardPage(request);
    if (routeRule(request.method, new URL(request.url).pathname) !== 'anyone')
      return onward(failed('closed'));
    return onward(await work(actingAs(await openContext(), NOBODY)));
  } catch (error) {
    log.warn({ err: error, event: 'provider-sign-in-failed' }, 'a sign-in by the identity provider failed');
    const isDisabled = error instanceof AppError && error.code === 'not-allowed';
    return onward(failed(isDisabled ? 'disabled' : 'provider'));
  }
}

function failed(problem: string): Onward {
  return { to: `/sign-in?problem=${problem}`, cookies: [] };
}

function onward({ to, cookies }: Onward): Response {
  const headers = new Headers({ Location: to, 'Cache-Control': 'no-store' });
  for (const cookie of cookies) headers.append('Set-Cookie', cookie);
  return new Response(null, { status: 303, headers });
}
