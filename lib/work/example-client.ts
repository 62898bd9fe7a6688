import { readFile } from 'node:fs/promises';
import { join } from 'node:path';

/** The example of a program that sends readings, as it stands in the sources: what is shown is what is tested. */
export function exampleClient(): Promise<string> {
  const root = process.env.CLEANBY_ROOT ?? process.cwd();
  return readFile(join(/* turbopackIgnore: true */ root, 'seed', 'example-client.mjs'), 'utf8');
}
