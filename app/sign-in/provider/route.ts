import { wayBack } from '@/app/access/way-back';
import { beginAtProvider } from '@/lib/auth/provider-sign-in';
import { answerBrowser } from './answer-browser';

/** Sends a browser to the plant's identity provider. */
export function GET(request: Request): Promise<Response> {
  const to = wayBack(new URL(request.url).searchParams.get('to'));
  return answerBrowser(request, async ({ store }) => {
    const { url, cookies } = await beginAtProvider(store, request.headers, to);
    return { to: url, cookies };
  });
}
