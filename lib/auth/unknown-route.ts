import { AppError } from '@/lib/contract/app-error';
import { routeRule } from './rules';

const METHODS = ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE'];

/** The methods that routes at a path answer; none where there is no route. */
export function methodsAt(path: string): string[] {
  const known = METHODS.filter((method) => routeRule(method, path) !== null);
  return known.length === 0 ? [] : [...known, 'OPTIONS'];
}

/** Why no route answers a request: none has its path, or the one that has takes other methods. */
export function unknownRoute({ method, url }: { method: string; url: string }): AppError {
  const { pathname } = new URL(url);
  const known = methodsAt(pathname);
  if (known.length === 0) return new AppError('not-found', `There is no route ${pathname.slice(0, 200)}`);
  return new AppError('method-not-allowed', `${method} is not taken at this address`, [
    { field: 'method', message: `use ${known.join(', ')}` },
  ]);
}
