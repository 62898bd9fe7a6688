import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';

const ROOT = join(import.meta.dirname, '../..');
const APP = join(ROOT, 'app');
const METHODS = ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS'];

type Exports = Record<string, unknown>;
/** biome-ignore lint/suspicious/noExplicitAny: what a file exports is known only when it has been loaded */
export type Handler = (...given: any[]) => unknown;

export type WalkedRoute = { key: string; method: string; path: string; handler: Handler };
export type WalkedPage = { path: string; page: Handler };
export type WalkedAction = { name: string; file: string; action: Handler };

const files = readdirSync(APP, { recursive: true, encoding: 'utf8' })
  .map((name) => join(APP, name))
  .filter((path) => /\.(ts|tsx|js|jsx|mjs)$/.test(path))
  .sort();

/** Every handler of every route file, as the framework finds them; `isOther` tells those that only refuse their method. */
export async function walkRoutes(isOther: (handler: unknown) => boolean): Promise<WalkedRoute[]> {
  const routes: WalkedRoute[] = [];
  for (const file of files.filter((path) => /\/route\.\w+$/.test(path))) {
    const exported = await load(file);
    for (const method of METHODS) {
      const handler = exported[method];
      if (handler === undefined || isOther(handler)) continue;
      const path = addressOf(file);
      routes.push({ key: `${method} ${path}`, method, path, handler: handler as Handler });
    }
  }
  return routes;
}

const pageFiles = files.filter((path) => /\/page\.\w+$/.test(path));

/** The path of every page, without loading any. */
export function pagePaths(): string[] {
  return pageFiles.map(addressOf);
}

export async function walkPages(): Promise<WalkedPage[]> {
  const pages: WalkedPage[] = [];
  for (const file of pageFiles) {
    pages.push({ path: addressOf(file), page: (await load(file)).default as Handler });
  }
  return pages;
}

/** Every function that a browser can call on the server: whatever a file marked 'use server' exports. */
export async function walkActions(): Promise<WalkedAction[]> {
  const actions: WalkedAction[] = [];
  for (const file of files.filter((path) => /^['"]use server['"]/.test(readFileSync(path, 'utf8')))) {
    for (const [name, action] of Object.entries(await load(file))) {
      if (typeof action === 'function')
        actions.push({ name, file: relative(ROOT, file), action: action as Handler });
    }
  }
  return actions;
}

/** Files in which a function within is marked 'use server': such a one has no name by which a rule could be found. */
export function hiddenActions(): string[] {
  const marked = files.filter((path) => /^\s+['"]use server['"]/m.test(readFileSync(path, 'utf8')));
  return marked.map((path) => relative(ROOT, path));
}

/** The address that a file of `app` answers: folders in brackets of their own are not part of it. */
function addressOf(file: string): string {
  const folders = relative(APP, file).split('/').slice(0, -1);
  return `/${folders.filter((name) => !/^\(.*\)$/.test(name)).join('/')}`;
}

function load(file: string): Promise<Exports> {
  return import(file);
}

/** What stands for the segments in brackets when an address is asked for. */
const SEGMENTS: Record<string, string> = { tag: 'HX-1', id: '1', batch: '1', name: 'plain' };

/** An address with its segments filled in, and those segments as the framework hands them over. */
export function asked(path: string): { address: string; params: Record<string, string> } {
  const params: Record<string, string> = {};
  const address = path.replace(/\[([a-z]+)\]/g, (_, name: string) => {
    params[name] = SEGMENTS[name] ?? 'x';
    return params[name];
  });
  return { address, params };
}
