import pino from 'pino';

/** From what level on something is said: of a command only what is amiss, `cleanby serve` sets `info` for itself. */
const USUAL_LEVEL = 'warn';

/** Names under which something secret may stand, wherever in what is logged. */
const SECRETS = [
  'authorization',
  'cookie',
  '"set-cookie"',
  'password',
  'newPassword',
  'currentPassword',
  'token',
  'secret',
];
/** How deep they are looked for; a log line has no business holding more. */
const DEPTHS = ['', '*', '*.*', '*.*.*'];

const SECRET_PATHS = DEPTHS.flatMap((depth) =>
  SECRETS.map((name) => {
    const last = name.startsWith('"') ? `[${name}]` : name;
    return depth === '' || last.startsWith('[') ? `${depth}${last}` : `${depth}.${last}`;
  }),
);

/** One JSON line per event on stderr: stdout belongs to answers. No transports: they are threads that bundling breaks. */
export const log = pino(
  {
    name: 'cleanby',
    level: levelOf(process.env.CLEANBY_LOG),
    timestamp: pino.stdTimeFunctions.isoTime,
    redact: { paths: SECRET_PATHS, censor: '(secret)' },
  },
  pino.destination({ dest: 2, sync: true }),
);

/** A level by its name; the usual one for a name that is none, for a log must not keep anything from starting. */
function levelOf(name: string | undefined): string {
  return name !== undefined && (name === 'silent' || name in pino.levels.values) ? name : USUAL_LEVEL;
}

/** What a server says unless CLEANBY_LOG says otherwise: requests that changed something, start, stop, analyses. */
export function logAsServer(): void {
  process.env.CLEANBY_LOG ??= 'info';
  log.level = levelOf(process.env.CLEANBY_LOG);
}

const CHANGES_NOTHING = ['GET', 'HEAD', 'OPTIONS'];

/** One line for a request that changed something or failed; the others only where CLEANBY_LOG asks for them. */
export function logRequest(
  request: { method: string; url: string },
  status: number,
  { began, ...who }: { began: number; requestId?: string; actor?: string | null },
): void {
  const { method } = request;
  const ms = Math.round((performance.now() - began) * 10) / 10;
  // What stands behind `?` may be anything; the path says enough.
  const route = new URL(request.url, 'http://localhost').pathname;
  const level =
    status >= 500 ? 'error' : status >= 400 || !CHANGES_NOTHING.includes(method) ? 'info' : 'debug';
  log[level]({ method, route, status, ms, ...who }, 'request');
}
