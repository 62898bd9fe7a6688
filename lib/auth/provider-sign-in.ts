import { AppError } from '@/lib/contract/app-error';
import type { Store } from '@/lib/store/open-store';
import { identityProvider, PROVIDER_ID } from './identity-provider';
import { type Arrival, arriving } from './provider-plugin';
import { providerLibrary } from './sign-in-library';

/**
 * Sends somebody to the provider.
 *
 * @param to the page to come back to, one of ours
 * @throws AppError 'not-found' where there is no provider, or it does not answer
 */
export async function beginAtProvider(
  store: Store,
  headers: Headers,
  to: string,
): Promise<{ url: string; cookies: string[] }> {
  const provider = identityProvider();
  if (provider === null) throw noProvider();
  const { api } = await providerLibrary(store, headers, provider);
  const body = {
    provider: PROVIDER_ID as never,
    callbackURL: provider.origin + to,
    errorCallbackURL: `${provider.origin}/sign-in`,
    disableRedirect: true,
  };
  const begun = await api.signInSocial({ body, headers, returnHeaders: true });
  const { url } = begun.response as { url?: string };
  if (url === undefined) throw noProvider();
  return { url, cookies: begun.headers.getSetCookie() };
}

/** Who came back from the provider, and what was made of that one here; null where nobody did. */
export type Arrived = Arrival & { userId: string; to: string };

/** Takes somebody who comes back: state, code, token and nonce are the library's to check. */
export async function returnFromProvider(store: Store, request: Request): Promise<Arrived | null> {
  const provider = identityProvider();
  if (provider === null) throw noProvider();
  const library = await providerLibrary(store, request.headers, provider);
  const arrival: Arrival = { role: null, isNew: false, isLinked: false };
  const { search } = new URL(request.url);
  const asked = new Request(`${provider.origin}/api/auth/callback/${PROVIDER_ID}${search}`, {
    headers: request.headers,
  });
  const response = await arriving.run(arrival, () => library.handler(asked));
  const cookies = response.headers.getSetCookie().map((line) => line.split(';')[0]!);
  const found = await library.api.getSession({ headers: new Headers({ cookie: cookies.join('; ') }) });
  const location = response.headers.get('location') ?? '';
  if (found === null || !location.startsWith(`${provider.origin}/`)) return null;
  await library.api.signOut({ headers: new Headers({ cookie: cookies.join('; ') }) });
  return { ...arrival, userId: found.user.id, to: location.slice(provider.origin.length) };
}

function noProvider(): AppError {
  return new AppError('not-found', 'No identity provider answers', [
    { field: 'CLEANBY_OIDC_ISSUER', message: 'sign in with a password, or ask an administrator' },
  ]);
}
