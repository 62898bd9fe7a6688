import { createHash } from 'node:crypto';
import type { IncomingMessage, OutgoingHttpHeaders, RequestListener, ServerResponse } from 'node:http';
import { makeNonce } from '@/lib/auth/nonce';

/** The page that most people have open, and the largest: what is on it follows from the request and the database alone. */
const KEPT_PATH = '/';
/** An answer is given again for so long [ms]: a page tells of the time of day, and lags behind an analysis that is under way. */
const KEPT_MS = 10_000;
const MOST_KEPT = 64;
const POLICY = 'content-security-policy';
/** What the answer itself decides anew when it is sent. */
const OF_THE_SENDING = [
  'connection',
  'content-encoding',
  'content-length',
  'date',
  'keep-alive',
  'transfer-encoding',
];

/** An answer as it was sent, in pieces between which its nonce stood. */
type Kept = { headers: OutgoingHttpHeaders; nonce: string; pieces: Buffer[] };

/** The data that all that is kept was made of, and until when it may be given again [ms]. */
type Standing = { version: number | null; until: number };

/**
 * Gives the very same request the very same page for some seconds, as long as nothing at all was written to the database: to make
 * it costs ten times as much as to send it, and twenty people may look at it. All that a request says is compared, so nobody is
 * given what another may see; who was let in or shut out since is written in the database. Only the nonce is another one each time.
 *
 * @param handler what makes the answers
 * @param version another number after every commit to the database; null while that cannot be told, and nothing is kept
 * @param now     a clock that only runs on [ms]
 */
export function keepPages(
  handler: RequestListener,
  version: () => number | null,
  now: () => number = () => performance.now(),
): RequestListener {
  const kept = new Map<string, Kept>();
  let stands: Standing = { version: null, until: Number.NEGATIVE_INFINITY };
  const renew = () => {
    const current = version();
    if (current !== null && stands.version === current && now() < stands.until) return stands;
    kept.clear();
    stands = { version: current, until: now() + KEPT_MS };
    return stands;
  };
  return (request, response) => {
    if (!isOfKeptPage(request)) return handler(request, response);
    const begun = renew();
    const key = keyOf(request);
    const known = kept.get(key);
    if (known !== undefined) return giveAgain(known, response);
    noteDown(response, (answer) => {
      // Made of data of which some may have changed since.
      if (renew() !== begun) return;
      if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value!);
      kept.set(key, answer);
    });
    return handler(request, response);
  };
}

function isOfKeptPage({ method, url = '' }: IncomingMessage): boolean {
  return method === 'GET' && url.split('?', 1)[0] === KEPT_PATH;
}

/** Everything the request says; as a digest, so that no cookie is kept. */
function keyOf({ url, rawHeaders }: IncomingMessage): string {
  return createHash('sha256')
    .update(JSON.stringify([url, rawHeaders]))
    .digest('base64');
}

function giveAgain({ headers, nonce, pieces }: Kept, response: ServerResponse): void {
  const fresh = makeNonce();
  const own = { ...headers, [POLICY]: String(headers[POLICY]).replaceAll(nonce, fresh) };
  for (const [name, value] of Object.entries(own)) if (value !== undefined) response.setHeader(name, value);
  const word = Buffer.from(fresh);
  response.end(Buffer.concat(pieces.flatMap((piece, index) => (index === 0 ? [piece] : [word, piece]))));
}

/** Listens to an answer while it is sent; `keep` is told once it is out, where it is a page that can be given again. */
function noteDown(response: ServerResponse, keep: (answer: Kept) => void): void {
  const pieces: Buffer[] = [];
  const listenTo = <Send extends (...given: never[]) => unknown>(send: Send): Send =>
    ((...given: Parameters<Send>) => {
      const [piece, encoding] = given as unknown[];
      if (typeof piece === 'string') pieces.push(Buffer.from(piece, encodingOf(encoding)));
      else if (piece instanceof Uint8Array) pieces.push(Buffer.from(piece));
      return send.apply(response, given);
    }) as Send;
  response.write = listenTo(response.write);
  response.end = listenTo(response.end);
  response.once('finish', () => {
    const answer = keptAnswer(response, Buffer.concat(pieces));
    if (answer !== null) keep(answer);
  });
}

function encodingOf(given: unknown): BufferEncoding {
  return typeof given === 'string' && Buffer.isEncoding(given) ? given : 'utf8';
}

/** Null for an answer that is no page, or that begins or ends a session. */
function keptAnswer(response: ServerResponse, body: Buffer): Kept | null {
  const headers = response.getHeaders();
  const nonce = /'nonce-([^']+)'/.exec(String(headers[POLICY]))?.[1];
  if (response.statusCode !== 200 || headers['set-cookie'] !== undefined || nonce === undefined) return null;
  for (const name of OF_THE_SENDING) delete headers[name];
  return { headers, nonce, pieces: cutAt(body, nonce) };
}

function cutAt(body: Buffer, word: string): Buffer[] {
  const pieces: Buffer[] = [];
  let from = 0;
  for (let at = body.indexOf(word); at >= 0; at = body.indexOf(word, from)) {
    pieces.push(body.subarray(from, at));
    from = at + word.length;
  }
  return [...pieces, body.subarray(from)];
}
