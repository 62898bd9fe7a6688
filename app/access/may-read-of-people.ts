import { identify } from '@/lib/auth/identify';
import type { Context } from '@/lib/work/context';

/** Whether whoever sends these headers may read what became of accounts, invitations and tokens. */
export async function mayReadOfPeople({ store, now }: Context, headers: Headers): Promise<boolean> {
  const visitor = await identify(store, headers, now());
  return visitor?.rights.has('people') ?? false;
}
