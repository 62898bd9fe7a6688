import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { cache } from 'react';
import { identify } from '@/lib/auth/identify';
import type { Right } from '@/lib/auth/rights';
import { ACTION_RULES, type ActionName, PAGE_RULES, type PagePath } from '@/lib/auth/rules';
import { admit, mayEnter, type Visitor } from '@/lib/auth/visitor';
import { actingAs, type Context, openContext } from '@/lib/work/context';

/** Who looks at this page: asked once per request, however many parts of it want to know. */
export const readVisitor = cache(async (): Promise<Visitor | null> => {
  const { store, now } = await openContext();
  return identify(store, await headers(), now());
});

/** What whoever looks at this page may do: parts show only what that one can use. */
export async function readRights(): Promise<ReadonlySet<Right>> {
  return (await readVisitor())?.rights ?? new Set();
}

/**
 * The database for a page, if the policy admits whoever asks; somebody not signed in is sent to sign in, somebody without
 * the right is told so.
 */
export async function openPage(path: PagePath): Promise<Context> {
  const context = await openContext();
  const visitor = await readVisitor();
  if (visitor === null) return redirect('/sign-in');
  if (!mayEnter(PAGE_RULES[path], visitor)) return redirect('/not-allowed');
  return actingAs(context, visitor.actor);
}

/**
 * The database for an action of a form, if the policy admits whoever sends it.
 *
 * @throws AppError 'not-signed-in' or 'not-allowed'
 */
export async function openAction(name: ActionName): Promise<Context> {
  const context = await openContext();
  const visitor = await readVisitor();
  admit(ACTION_RULES[name], visitor);
  return actingAs(context, visitor!.actor);
}
