import { methodsAt } from '@/lib/auth/unknown-route';
import { type AppError, ERROR_CODES } from '@/lib/contract/app-error';
import { TooManyRequests } from '@/lib/contract/too-many-requests';

/** What a program waits before it asks a database again that could not be used [s]. */
const DATABASE_RETRY = 30;

/** What makes a problem document: the request it is about, and the number under which the log has it. */
export type Refused = { request: Request; requestId: string };

/** A user's error as a problem document (RFC 9457): `errors` names each field with what is wrong and what to do. */
export function refusal(error: AppError, refused: Refused): Response {
  const { status, title } = ERROR_CODES[error.code];
  const type = `urn:cleanby:problem:${error.code}`;
  const document = { type, title, status, detail: error.message, errors: error.faults };
  return problem(document, refused, headersOf(error, refused.request));
}

/** A fault of ours: the caller learns that it happened and where the log tells of it, and nothing of the inside. */
export function failure(refused: Refused): Response {
  return problem(
    {
      type: 'urn:cleanby:problem:internal',
      title: 'Something went wrong here',
      status: 500,
      detail:
        'The fault is ours; what happened is in the log of the server, under the number of this request.',
      errors: [],
    },
    refused,
  );
}

/** No fault of anybody: the caller hung up. The status, which nobody receives, keeps the log from calling it a failure. */
export function callerLeft(refused: Refused): Response {
  const type = 'urn:cleanby:problem:internal';
  const detail = 'Whoever asked did not wait for the answer.';
  return problem({ type, title: 'The caller has gone away', status: 499, detail, errors: [] }, refused);
}

type ProblemDocument = { type: string; title: string; status: number; detail: string; errors: unknown[] };

function problem(document: ProblemDocument, { requestId }: Refused, headers: HeadersInit = {}): Response {
  const { errors, ...said } = document;
  return new Response(JSON.stringify({ ...said, instance: `urn:uuid:${requestId}`, errors }), {
    status: document.status,
    headers: { ...headers, 'Cache-Control': 'no-store', 'Content-Type': 'application/problem+json' },
  });
}

/** Headers that the status asks for (RFC 9110). */
function headersOf(error: AppError, request: Request): Record<string, string> {
  switch (error.code) {
    case 'method-not-allowed':
      return { Allow: methodsAt(new URL(request.url).pathname).join(', ') };
    case 'not-signed-in':
      return { 'WWW-Authenticate': 'Bearer realm="Cleanby"' };
    case 'too-many-requests':
      return error instanceof TooManyRequests ? { 'Retry-After': String(error.retryAfter) } : {};
    case 'database-unusable':
      return { 'Retry-After': String(DATABASE_RETRY) };
    default:
      return {};
  }
}
