import type { Fault } from '@/lib/contract/app-error';

/** A refusal as the pages show it. */
export type Problem = { status: number; detail: string; errors: Fault[] };

export const NOT_REACHED: Problem = {
  status: 0,
  detail: 'The server did not answer. Look whether it still runs, then try again; nothing here is lost.',
  errors: [],
};

/** A refusal out of an answer that may be anything: a proxy's page, a cut answer. */
export function problemOf(status: number, document: unknown): Problem {
  const given = (typeof document === 'object' && document !== null ? document : {}) as Partial<Problem>;
  const detail =
    typeof given.detail === 'string' ? given.detail : `The server answered with status ${status}.`;
  return { status, detail, errors: Array.isArray(given.errors) ? given.errors : [] };
}

export type Answer<Document> = { document: Document; problem: null } | { document: null; problem: Problem };

/** Sends JSON to the API and gives the document or the problem; an abort throws. */
export function postJson<Document>(
  path: string,
  body: unknown,
  signal?: AbortSignal,
): Promise<Answer<Document>> {
  return sendJson<Document>(path, { method: 'POST', body: JSON.stringify(body), signal });
}

/** The same for what takes the place of what was there. */
export function putJson<Document>(path: string, body: unknown): Promise<Answer<Document>> {
  return sendJson<Document>(path, { method: 'PUT', body: JSON.stringify(body) });
}

/** The same for what is only looked up, and for what is to go. */
export function getJson<Document>(path: string): Promise<Answer<Document>> {
  return sendJson<Document>(path, { method: 'GET' });
}

export function deleteJson<Document>(path: string): Promise<Answer<Document>> {
  return sendJson<Document>(path, { method: 'DELETE' });
}

async function sendJson<Document>(path: string, request: RequestInit): Promise<Answer<Document>> {
  let response: Response;
  try {
    response = await fetch(path, { ...request, headers: { 'Content-Type': 'application/json' } });
  } catch (error) {
    if (request.signal?.aborted) throw error;
    return { document: null, problem: NOT_REACHED };
  }
  const raw: unknown = await response.json().catch(() => null);
  if (response.ok && raw !== null) return { document: raw as Document, problem: null };
  return { document: null, problem: problemOf(response.status, raw) };
}
