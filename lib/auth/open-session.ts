import { createAuthEndpoint } from 'better-auth/api';
import { setSessionCookie } from 'better-auth/cookies';
import { z } from 'zod';

/**
 * Adds to the sign-in library what only our own code may call, for it has no address: a session for a person whom we
 * have found to be who they say.
 */
export function serverSessions() {
  return {
    id: 'server-sessions',
    endpoints: {
      openSession: createAuthEndpoint.serverOnly(
        { method: 'POST', body: z.object({ userId: z.string(), address: z.string() }), requireHeaders: true },
        async (ctx) => {
          const { userId, address } = ctx.body;
          const { internalAdapter } = ctx.context;
          const user = await internalAdapter.findUserById(userId);
          if (user === null) throw new Error('no such account');
          const session = await internalAdapter.createSession(userId, false, { ipAddress: address });
          await setSessionCookie(ctx, { session, user });
          return ctx.json({ id: session.id });
        },
      ),
    },
  };
}
