import { guard } from '@/app/api/guard';
import { identify } from '@/lib/auth/identify';
import { routeRule } from '@/lib/auth/rules';
import { unknownRoute } from '@/lib/auth/unknown-route';
import { admit } from '@/lib/auth/visitor';
import { NOBODY } from '@/lib/contract/actor';
import { actingAs, type Context, openContext } from '@/lib/work/context';

/**
 * The database for whoever sends a request to a route, if the policy admits that one.
 *
 * @throws AppError 'not-signed-in', 'not-allowed'; 'not-found' or 'method-not-allowed' for a route that the policy does not list
 */
export async function openRequest(request: Request): Promise<Context> {
  guard(request);
  const rule = routeRule(request.method, new URL(request.url).pathname);
  if (rule === null) throw unknownRoute(request);
  const context = await openContext();
  const visitor = await identify(context.store, request.headers, context.now());
  admit(rule, visitor);
  return actingAs(context, visitor?.actor ?? NOBODY);
}
