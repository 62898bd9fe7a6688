import { TOKEN_SCOPES } from '@/lib/auth/rights';
import { makeTokenSecret } from '@/lib/auth/token-secret';
import { addToken } from '@/lib/store/entities/api-tokens';
import { type TemporaryDatabase, temporaryDatabase } from './temporary-database';

/** The token that requests are sent with: it may do whatever a token may. */
let token = '';

/** A temporary database which the route handlers, called directly, take for the one of DATABASE_URL. */
export async function apiDatabase(): Promise<TemporaryDatabase> {
  const database = await temporaryDatabase();
  process.env.DATABASE_URL = database.url;
  const { secret, ...kept } = makeTokenSecret();
  const made = { name: 'test', scopes: TOKEN_SCOPES, createdBy: 'test', createdAt: 0, expiresAt: null };
  await addToken(database.context.store.entities, { ...kept, ...made });
  token = secret;
  return database;
}

const HOST = 'localhost:4000';

type Sent = {
  method?: string;
  body?: BodyInit | null;
  headers?: Record<string, string>;
  signal?: AbortSignal;
};

/** A request as a program on this machine sends it. */
export function request(path: string, sent: Sent = {}): Request {
  const { method = 'GET', body = null, headers = {}, signal } = sent;
  // Node wants to be told that a stream is sent while the answer is awaited.
  const init = {
    method,
    body,
    headers: { host: HOST, authorization: `Bearer ${token}`, ...typeOf(path, body), ...headers },
    signal,
    duplex: 'half',
  } as RequestInit;
  return new Request(`http://${HOST}/api/v1/${path}`, init);
}

/** Text is sent as what the route takes; everything else says itself what it is. */
function typeOf(path: string, body: BodyInit | null): Record<string, string> {
  if (typeof body !== 'string') return {};
  return { 'content-type': path.startsWith('imports') ? 'text/csv' : 'application/json' };
}

export function post(path: string, body: BodyInit): Request {
  return request(path, { method: 'POST', body });
}

export function postJson(path: string, document: unknown): Request {
  return post(path, JSON.stringify(document));
}

export type Answer = { status: number; type: string | null; document: Record<string, unknown> };

/** Status, media type and document of an answer. */
export async function answerOf(response: Promise<Response>): Promise<Answer> {
  const given = await response;
  const document = (await given.json()) as Record<string, unknown>;
  return { status: given.status, type: given.headers.get('content-type'), document };
}

/** Hourly rows of a unit whose heat balance closes: 50→40 against 30→40 °C, 10 kg/s each. */
export function readingsCsv(tag: string, rows: number, first = '2026-01-01T00:00:00Z'): string {
  const head =
    'tag,time,hot_in[Cel],hot_out[Cel],cold_in[Cel],cold_out[Cel],hot_flow[kg/s],cold_flow[kg/s]\n';
  const start = Date.parse(first);
  const lines = Array.from({ length: rows }, (_, hour) => {
    const time = new Date(start + hour * 3_600_000).toISOString();
    // A little movement, or the sensors would count as frozen.
    const shift = ((hour % 7) - 3) / 20;
    const values = [50 + shift, 40 + shift, 30 + shift, 40 + shift].map((value) => value.toFixed(2));
    return `${tag},${time},${values.join(',')},${(10 + shift / 10).toFixed(3)},${(10 - shift / 10).toFixed(3)}\n`;
  });
  return head + lines.join('');
}
