import { unknownRoute } from '@/lib/auth/unknown-route';
import { respond } from './respond';

/**
 * Handlers of the methods a route does not have: the framework would answer them with an empty 405. Every route file exports those
 * it lacks from here.
 */
export const GET = refuseMethod;
export const POST = refuseMethod;
export const PUT = refuseMethod;
export const PATCH = refuseMethod;
export const DELETE = refuseMethod;

function refuseMethod(request: Request): Promise<Response> {
  return respond(request, async () => {
    throw unknownRoute(request);
  });
}

/** Whether a handler only says that a route does not have its method. */
export function isOtherMethod(handler: unknown): boolean {
  return handler === refuseMethod;
}
