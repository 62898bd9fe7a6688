import { z } from 'zod';
import { routeKey } from '@/lib/auth/rules';
import { OPERATIONS } from '@/lib/contract/api/all-operations';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { onlyKnown } from '@/lib/contract/only-known';

/**
 * Refuses what stands behind `?` where the operation asked for does not know it, or it stands there twice: a `check=1` that is
 * misspelt would otherwise store what was only to be tried.
 *
 * @throws AppError 'invalid-input' naming each parameter
 */
export function checkQuery({ method, url }: { method: string; url: string }): void {
  const { pathname, searchParams } = new URL(url);
  const operation = OPERATIONS[routeKey(method, pathname) ?? ''];
  if (operation === undefined || searchParams.size === 0) return;
  const known = operation.query === undefined ? [] : parameterNames(operation.query);
  const shape = Object.fromEntries(known.map((name) => [name, z.unknown().optional()]));
  refuse(onlyKnown(shape).safeParse(Object.fromEntries(searchParams)).error);
  const repeated = known.filter((name) => searchParams.getAll(name).length > 1);
  if (repeated.length > 0) {
    const faults = repeated.map((field) => ({ field, message: 'is stated more than once: state it once' }));
    throw new AppError('invalid-input', REFUSED, faults);
  }
  refuse(operation.query?.safeParse(Object.fromEntries(searchParams)).error);
}

const REFUSED = 'The request is not valid';

function refuse(error: z.ZodError | undefined): void {
  if (error !== undefined) throw new AppError('invalid-input', REFUSED, faultsOf(error));
}

/** The parameters that the query of an operation can have. */
export function parameterNames(query: z.ZodType): string[] {
  return query instanceof z.ZodObject ? Object.keys(query.shape) : [];
}
