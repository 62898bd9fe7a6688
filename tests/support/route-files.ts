import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isOtherMethod } from '@/app/api/other-methods';

const APP = fileURLToPath(new URL('../../app', import.meta.url));
const METHODS = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'];

type Params = Record<string, string | string[]>;
type Handler = (request: Request, context: { params: Promise<Params> }) => Promise<Response>;

/** A route file of the framework: the path its folders name, and what it exports. */
export type RouteFile = {
  path: string;
  /** Every method it exports a handler of. */
  exported: Map<string, Handler>;
  /** Those of them that do something. */
  methods: string[];
};

let read: Promise<RouteFile[]> | null = null;

/** Every route file under a folder of `app`, as the framework finds them. */
export function routeFiles(folder = 'api'): Promise<RouteFile[]> {
  read ??= Promise.all(
    readdirSync(join(APP, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => /(^|\/)route\.ts$/.test(name))
      .map((name) => readRoute(join(folder, name))),
  );
  return read;
}

async function readRoute(file: string): Promise<RouteFile> {
  const exports = (await import(join(APP, file))) as Record<string, Handler>;
  const exported = new Map(METHODS.flatMap((method) => (exports[method] ? [[method, exports[method]]] : [])));
  const methods = [...exported].filter(([, handler]) => !isOtherMethod(handler)).map(([method]) => method);
  return { path: `/${dirname(file)}`, exported, methods };
}

/** Answers a request as the framework would: the file whose path fits, fixed segments before named ones before the rest. */
export async function answerOfRoutes(request: Request): Promise<Response> {
  const asked = new URL(request.url).pathname.split('/');
  const files = await routeFiles();
  const fitting = files
    .map((file) => ({ file, params: paramsOf(file.path.split('/'), asked) }))
    .filter(({ params }) => params !== null)
    .sort((a, b) => openness(a.file.path) - openness(b.file.path));
  const [found] = fitting;
  const handler = found?.file.exported.get(request.method === 'HEAD' ? 'GET' : request.method);
  if (handler === undefined) return new Response(null, { status: found === undefined ? 404 : 405 });
  return handler(request, { params: Promise.resolve(found!.params!) });
}

function openness(path: string): number {
  return path.includes('[...') ? 1000 : path.split('[').length;
}

function paramsOf(pattern: string[], asked: string[]): Params | null {
  const params: Params = {};
  for (const [i, part] of pattern.entries()) {
    const name = /^\[(\.\.\.)?(\w+)\]$/.exec(part);
    if (name?.[1] !== undefined) {
      params[name[2]!] = asked.slice(i);
      return asked.length > i ? params : null;
    }
    if (name === null ? part !== asked[i] : !asked[i]) return null;
    if (name !== null) params[name[2]!] = asked[i]!;
  }
  return pattern.length === asked.length ? params : null;
}
