/** The start page, where nobody asked for another. */
const START = '/';
const LONGEST = 2000;

/**
 * Where to go after signing in: the page that was asked for, if it is one of ours. Anything a browser could take for another
 * site ("//host", "/\host", a scheme, hidden control characters) leads to the start page.
 */
export function wayBack(asked: unknown): string {
  if (typeof asked !== 'string' || asked.length > LONGEST || !/^\/(?![/\\])[^\\\p{Cc}]*$/u.test(asked))
    return START;
  const base = 'http://own.invalid';
  const url = URL.canParse(asked, base) ? new URL(asked, base) : null;
  if (url === null || url.origin !== base || url.pathname.startsWith('//')) return START;
  // Routes of the API and of the build are no pages to go to.
  return /^\/(api|_next)(\/|$)/.test(url.pathname) ? START : url.pathname + url.search;
}

/** The sign-in page that leads back to a page afterwards. */
export function signInAddress(asked: string): string {
  const back = wayBack(asked);
  return back === START ? '/sign-in' : `/sign-in?to=${encodeURIComponent(back)}`;
}
