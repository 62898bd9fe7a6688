const NOT_THERE =
  'no server answers there. Start it, or name the right host and port in DATABASE_URL; what was being written was undone';
const LOST =
  'the connection to the server was lost. What was being written was undone: look after the server, and try again';
const NO_ENTRY =
  'the server does not let this user in. Name the right user and password in DATABASE_URL (an @ in the password is written ' +
  '%40), or have the server let the user in from this machine';
const NO_DATABASE =
  'the server has no database of that name. Make it (CREATE DATABASE), or name the right one';
const NO_RIGHT =
  'the user may not do that. Make it the owner of the database, or grant it CREATE on the schema and all rights on its tables';
const READ_ONLY =
  'the server takes no writing now, as a standby does. Name the primary server in DATABASE_URL';
const SERVER_FULL =
  'the disk of the server is full. What was being written was undone and what was stored before is untouched: make room there ' +
  'and try again';
const TOO_MANY =
  'the server has no connection or memory left. Raise max_connections there, or run fewer processes; then try again';
const TOO_LONG = 'something took too long there and was undone. Try again when the server is less busy';
const SERVER_DAMAGED =
  'the server finds its data damaged. Stop Cleanby, have the disk looked at, and bring the database back from its last copy';
const NO_TLS =
  'no encrypted connection came about. Look after the certificate, or after sslmode in DATABASE_URL';

/** The first that fits holds; codes are the server's SQLSTATE, and words of ours for what has none. */
export const POSTGRES_CAUSES: readonly [codes: RegExp, cause: string][] = [
  [/^(ECONNREFUSED|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|NO_SERVER)$|^57P03$/, NOT_THERE],
  [/^(ECONNRESET|EPIPE|LOST)$|^(08...|57P0[125])$/, LOST],
  [/^(28...|NO_PASSWORD)$/, NO_ENTRY],
  [/^3D000$/, NO_DATABASE],
  [/^42501$/, NO_RIGHT],
  [/^25006$/, READ_ONLY],
  [/^53100$/, SERVER_FULL],
  [/^53[234]00$/, TOO_MANY],
  [/^(57014|55P03|25P0[34]|40001|40P01)$/, TOO_LONG],
  [/^(XX00[12]|58030)$/, SERVER_DAMAGED],
  [/^NO_TLS$/, NO_TLS],
];

/** What the driver says in words only. */
const BY_WORDS: readonly [words: RegExp, code: string][] = [
  [/^Connection terminated|^Client has encountered a connection error/, 'LOST'],
  [/^timeout exceeded when trying to connect|^timeout expired/, 'NO_SERVER'],
  [/client password must be a string/, 'NO_PASSWORD'],
  [/does not support SSL connections|establishing an SSL connection/, 'NO_TLS'],
];

/** Kinds by which Prisma's adapter names what has no code of the server. */
const BY_KIND: Record<string, string> = {
  DatabaseNotReachable: 'NO_SERVER',
  ConnectionClosed: 'LOST',
  SocketTimeout: 'NO_SERVER',
  TlsConnectionError: 'NO_TLS',
};

/** No connection to a server came about. */
export class NoConnectionError extends Error {
  readonly kind = 'DatabaseNotReachable';
}

/** The server's own code of an error of the driver, or a word of ours; null where it is neither. */
export function postgresCode(error: object): { code: string; message: string } | null {
  const { code, severity, kind, message, reason } = error as Record<string, unknown>;
  const words = String(message ?? reason ?? kind);
  if (typeof kind === 'string' && BY_KIND[kind] !== undefined) return { code: BY_KIND[kind], message: words };
  if (typeof severity === 'string' && typeof code === 'string') return { code, message: words };
  const byWords = BY_WORDS.find(([pattern]) => pattern.test(words));
  return byWords === undefined ? null : { code: byWords[1], message: words };
}
