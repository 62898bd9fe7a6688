import { makeFirstRunCode } from '@/lib/auth/first-run-code';
import type { Context } from '@/lib/work/context';
import { isFirstRun } from '@/lib/work/people/first-run';

/**
 * Where nobody has an account yet: a code for whoever opens the first page from another machine, good until this process ends.
 *
 * @returns what to tell the person who started the server; null where there are accounts
 */
export async function offerFirstRun(context: Context): Promise<string | null> {
  if (!(await isFirstRun(context))) return null;
  const code = makeFirstRunCode();
  process.env.CLEANBY_FIRST_RUN_CODE = code;
  return `Nobody has an account yet: open the address and make the first one. From another machine the code is ${code}`;
}
