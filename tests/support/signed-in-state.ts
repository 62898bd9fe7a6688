import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Cookies of the administrator as whom the browser tests of one run are signed in. */
export function signedInState(): string {
  return join(tmpdir(), `cleanby-pages-${process.env.CLEANBY_PAGES_RUN}-signed-in.json`);
}
