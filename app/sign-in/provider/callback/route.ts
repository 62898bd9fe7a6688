import { wayBack } from '@/app/access/way-back';
import { signInByProvider } from '@/lib/work/people/sign-in-by-provider';
import { answerBrowser } from '../answer-browser';

/** Where the plant's identity provider sends a browser back to. */
export function GET(request: Request): Promise<Response> {
  return answerBrowser(request, async (context) => {
    const { cookies, to } = await signInByProvider(context, request);
    return { cookies, to: wayBack(to) };
  });
}
