import { AsyncLocalStorage } from 'node:async_hooks';
import { genericOAuth } from 'better-auth/plugins';
import { CALLBACK_PATH, type IdentityProvider, PROVIDER_ID, roleOfClaims } from './identity-provider';
import type { Role } from './rights';

/** What is learned while one person comes back from the provider. */
export type Arrival = { role: Role | null; isNew: boolean; isLinked: boolean };

export const arriving = new AsyncLocalStorage<Arrival>();

/** The library's plugin: authorization code with PKCE, state and nonce; the ID token's signature is checked by the provider's keys. */
export function providerPlugin(provider: IdentityProvider) {
  return genericOAuth({
    config: [
      {
        providerId: PROVIDER_ID,
        discoveryUrl: `${provider.issuer}/.well-known/openid-configuration`,
        clientId: provider.clientId,
        clientSecret: provider.clientSecret,
        redirectURI: provider.origin + CALLBACK_PATH,
        scopes: ['openid', 'email', 'profile'],
        pkce: true,
        requireIdTokenVerification: true,
        mapProfileToUser: (claims) => {
          const arrival = arriving.getStore();
          if (arrival !== undefined) arrival.role = roleOfClaims(provider, claims);
          return { image: undefined };
        },
      },
    ],
  });
}

/** What the library is about to write, put right: an account is made only for an address that the provider has verified. */
export function providerHooks({ defaultRole }: IdentityProvider) {
  return {
    user: {
      create: {
        before: async (user: { name: string; email: string; emailVerified: boolean }) => {
          const arrival = arriving.getStore();
          if (arrival === undefined || !user.emailVerified) return false;
          arrival.isNew = true;
          return { data: { ...user, name: user.name || user.email, role: arrival.role ?? defaultRole } };
        },
      },
    },
    account: {
      create: {
        before: async <Account extends object>(account: Account) => {
          const arrival = arriving.getStore();
          if (arrival !== undefined) arrival.isLinked = true;
          // Nobody here asks the provider for anything later: its tokens are not kept.
          return { data: { ...account, accessToken: null, refreshToken: null, idToken: null } };
        },
      },
    },
  };
}
