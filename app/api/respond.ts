import { randomUUID } from 'node:crypto';
import type { z } from 'zod';
import { openRequest } from '@/app/access/open-request';
import { refuseTooMany, takeRequest } from '@/lib/auth/limits';
import type { Standing } from '@/lib/auth/rate-limit';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import type { Context } from '@/lib/work/context';
import { knownError } from '@/lib/work/known-error';
import { log, logRequest } from '@/lib/work/log';
import { checkQuery } from './check-query';
import { limitHeaders } from './limit-headers';
import { callerLeft, failure, type Refused, refusal } from './problem';

/** What a route does for whoever was let in; `asked` names the request where an answer is told bit by bit. */
type Work = (context: Context, asked: Refused) => Promise<unknown>;

/**
 * Runs one request: lets in whom the policy admits and who does not ask too often, answers with what `work` gives, turns errors
 * into problem documents.
 */
export async function respond(request: Request, work: Work): Promise<Response> {
  const exchange: Exchange = { request, requestId: randomUUID(), actor: null };
  const began = performance.now();
  const standings = takeRequest(request.headers);
  const response = await answerTo(exchange, standings, work);
  for (const [name, value] of Object.entries(limitHeaders(standings))) response.headers.set(name, value);
  response.headers.set('X-Request-Id', exchange.requestId);
  logRequest(request, response.status, { began, requestId: exchange.requestId, actor: exchange.actor });
  return response;
}

/** A request under way, and the name of who sent it, once that is known. */
type Exchange = Refused & { actor: string | null };

async function answerTo(exchange: Exchange, standings: Standing[], work: Work): Promise<Response> {
  try {
    refuseTooMany(standings);
    const context = await openRequest(exchange.request);
    exchange.actor = context.actor.name;
    checkQuery(exchange.request);
    const answer = await work(context, exchange);
    return answer instanceof Response ? answer : Response.json(answer, { headers: NO_STORE });
  } catch (error) {
    return problemOf(error, exchange);
  }
}

const NO_STORE = { 'Cache-Control': 'no-store' };

/** An error as a problem document; what a person at the server has to know of it goes to the log. */
export function problemOf(error: unknown, refused: Refused): Response {
  const { request, requestId } = refused;
  const path = new URL(request.url).pathname;
  const known = knownError(error);
  if (known !== null) {
    if (known.code === 'database-unusable') {
      log.error({ err: known, path, requestId }, 'the database cannot be used');
    }
    return refusal(known, refused);
  }
  if (request.signal.aborted) {
    log.info({ path, requestId }, 'cancelled by the caller');
    return callerLeft(refused);
  }
  log.error({ err: error, path, requestId }, 'request failed');
  return failure(refused);
}

/** What stands behind `?`; names that are not known were refused before (`checkQuery`). */
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
