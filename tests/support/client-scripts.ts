import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** The scripts that a first visit of a page loads, and how much they come to [B, compressed by gzip]. */
export type ClientCode = { page: string; scripts: string[]; bytes: number };

/** Most that a page may load in scripts on a first visit [B, compressed by gzip]. */
export const MOST_CLIENT_CODE = 250_000;

const BUILD = join(import.meta.dirname, '../../.next');

/** Of every page of the build what a browser loads with it, the framework included; the largest first. */
export function clientCode(build = BUILD): ClientCode[] {
  const { rootMainFiles } = JSON.parse(readFileSync(join(build, 'build-manifest.json'), 'utf8')) as {
    rootMainFiles: string[];
  };
  const manifests = readdirSync(join(build, 'server/app'), { recursive: true, encoding: 'utf8' }).filter(
    (name) => name.endsWith('page_client-reference-manifest.js'),
  );
  const sizes = new Map<string, number>();
  const sizeOf = (script: string) => {
    const known = sizes.get(script) ?? gzipSync(readFileSync(join(build, script))).length;
    sizes.set(script, known);
    return known;
  };
  return manifests
    .map((name) => {
      const [page, entries] = entriesOf(readFileSync(join(build, 'server/app', name), 'utf8'));
      const scripts = [...new Set([...rootMainFiles, ...entries])];
      return { page, scripts, bytes: scripts.reduce((sum, script) => sum + sizeOf(script), 0) };
    })
    .sort((a, b) => b.bytes - a.bytes);
}

/** The scripts of the framework itself, which come with every page [B]. */
export function frameworkCode(build = BUILD): number {
  return Math.min(...clientCode(build).map(({ bytes }) => bytes));
}

type Manifest = { entryJSFiles?: Record<string, string[]> };

/** A manifest is a script that assigns one entry, by page, to an object of the global one. */
function entriesOf(source: string): [page: string, scripts: string[]] {
  const found = /__RSC_MANIFEST\[("(?:[^"\\]|\\.)*")\]\s*=\s*(\{[\s\S]*\});?\s*$/.exec(source);
  if (found === null) throw new Error('the build writes its manifests another way');
  const manifest = JSON.parse(found[2]!) as Manifest;
  const page = (JSON.parse(found[1]!) as string).replace(/\/page$/, '') || '/';
  return [page, Object.values(manifest.entryJSFiles ?? {}).flat()];
}
