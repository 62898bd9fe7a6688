import { cookies, headers } from 'next/headers';
import { forbidden, redirect } from 'next/navigation';
import { cache } from 'react';
import type { Right } from '@/lib/auth/rights';
import { ACTION_RULES, type ActionName, PAGE_RULES, type PagePath } from '@/lib/auth/rules';
import { personOfSession } from '@/lib/auth/sessions';
import { admit, mayEnter, type Visitor } from '@/lib/auth/visitor';
import { NOBODY } from '@/lib/contract/actor';
import { AppError } from '@/lib/contract/app-error';
import { actingAs, type Context, openContext } from '@/lib/work/context';
import { isFirstRun } from '@/lib/work/people/first-run';
import { signInAddress } from './way-back';

/**
 * Who looks at this page: asked once per request, however many parts of it want to know. Tokens are for the API: whatever a
 * server in front writes into Authorization, here only the session counts.
 */
export const readVisitor = cache(async (): Promise<Visitor | null> => {
  const { store } = await openContext();
  return personOfSession(store, await sentHeaders());
});

/** What the browser sent, with the cookies as an action of this very request has left them: a new session counts at once. */
export async function sentHeaders(): Promise<Headers> {
  const sent = new Headers(await headers());
  const jar = (await cookies()).toString();
  if (jar === '') sent.delete('cookie');
  else sent.set('cookie', jar);
  return sent;
}

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
  if (!mayEnter(PAGE_RULES[path], visitor)) return visitor === null ? askToSignIn(context) : forbidden();
  return actingAs(context, visitor?.actor ?? NOBODY);
}

async function askToSignIn(context: Context): Promise<never> {
  if (await isFirstRun(context)) return redirect('/first-run');
  return redirect(signInAddress(await askedFor()));
}

/** Path and query of the page asked for, as proxy.ts writes it down: a page knows only its pattern. */
export async function askedFor(): Promise<string> {
  return (await headers()).get('x-cleanby-page') ?? '/';
}

/**
 * The database for an action of a form, if the policy admits whoever sends it.
 *
 * @throws AppError 'not-signed-in' or 'not-allowed'
 */
export async function openAction(name: ActionName): Promise<Context> {
  const context = await openContext();
  const visitor = await readVisitor();
  if (visitor === null && !mayEnter(ACTION_RULES[name], null)) throw signedOut();
  admit(ACTION_RULES[name], visitor);
  return actingAs(context, visitor?.actor ?? NOBODY);
}

/** The same for a form that shows no answer: whoever is signed out is sent to sign in, others are told that they may not. */
export async function openPlainAction(name: ActionName, page: PagePath): Promise<Context> {
  const visitor = await readVisitor();
  if (mayEnter(ACTION_RULES[name], visitor)) return openAction(name);
  return visitor === null ? redirect(signInAddress(page)) : forbidden();
}

/** In words for a form: a session can end while somebody types. */
function signedOut(): AppError {
  return new AppError('not-signed-in', 'You are not signed in any more, and nothing was changed', [
    { field: 'session', message: 'sign in on the page /sign-in, in another tab, then send this again' },
  ]);
}
