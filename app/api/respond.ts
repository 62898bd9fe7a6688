import type { z } from 'zod';
import { openRequest } from '@/app/access/open-request';
import { AppError, ERROR_CODES } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import type { Context } from '@/lib/work/context';
import { log } from '@/lib/work/log';

/** Runs one request: lets in whom the policy admits, answers with what `work` gives, turns errors into problem documents. */
export async function respond(
  request: Request,
  work: (context: Context) => Promise<unknown>,
): Promise<Response> {
  try {
    const answer = await work(await openRequest(request));
    return answer instanceof Response ? answer : Response.json(answer, { headers: NO_STORE });
  } catch (error) {
    return error instanceof AppError ? refusal(error) : failure(request, error);
  }
}

const NO_STORE = { 'Cache-Control': 'no-store' };

/** A user's error as a problem document (RFC 9457): `errors` names each field with what is wrong and what to do. */
function refusal(error: AppError): Response {
  const { status, title } = ERROR_CODES[error.code];
  const type = `urn:cleanby:problem:${error.code}`;
  return problem({ type, title, status, detail: error.message, errors: error.faults });
}

/** A fault of ours: the log gets all of it, the caller only that it happened. */
function failure(request: Request, error: unknown): Response {
  const path = new URL(request.url).pathname;
  if (request.signal.aborted) log.info({ path }, 'cancelled by the caller');
  else log.error({ err: error, path }, 'request failed');
  return problem({
    type: 'urn:cleanby:problem:internal',
    title: 'Something went wrong here',
    status: 500,
    detail: 'The fault is ours; what happened is in the log of the server.',
    errors: [],
  });
}

function problem(document: { status: number } & Record<string, unknown>): Response {
  return new Response(JSON.stringify(document), {
    status: document.status,
    headers: { ...NO_STORE, 'Content-Type': 'application/problem+json' },
  });
}

/** What stands behind `?`, checked. */
export function readQuery<Schema extends z.ZodType>(request: Request, schema: Schema): z.output<Schema> {
  return parse(Object.fromEntries(new URL(request.url).searchParams), schema);
}

/** @throws AppError 'invalid-input' naming each field */
export function parse<Schema extends z.ZodType>(document: unknown, schema: Schema): z.output<Schema> {
  const parsed = schema.safeParse(document);
  if (parsed.success) return parsed.data;
  throw new AppError('invalid-input', 'The request is not valid', faultsOf(parsed.error));
}

/** A tag as a path segment holds it: people write `/` and blanks in tags. */
export function tagOf(params: { tag: string }): string {
  try {
    return decodeURIComponent(params.tag);
  } catch {
    return params.tag;
  }
}

/** A batch number as a path segment holds it. @throws AppError 'not-found' for anything else */
export function batchOf(params: { batch: string }): number {
  return numberOf(params.batch, 'import');
}

/** The number of some thing as a path segment holds it. @throws AppError 'not-found' for anything else */
export function numberOf(segment: string, thing: string): number {
  if (/^[1-9]\d{0,14}$/.test(segment)) return Number(segment);
  throw new AppError('not-found', `There is no ${thing} "${segment.slice(0, 40)}"`);
}
