const YEAR_SECONDS = 31_536_000;

/** Keeps a preference of this browser for a year. */
export function saveCookie(name: string, value: string): void {
  // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is missing in Firefox before 140 and on plain HTTP
  document.cookie = `${name}=${value}; path=/; max-age=${YEAR_SECONDS}; samesite=lax`;
}
