/** What is never asked for as a page: nothing in it runs, loads or is framed. */
export const INERT_POLICY =
  "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox";

/**
 * What a page may do: run the scripts that carry the nonce of this one answer and what those load, and talk to this server only.
 * Style attributes are let through, for charts place their parts by them and none is made of what users enter; style elements and
 * sheets are not.
 */
export function pagePolicy(nonce: string, isDevelopment = process.env.NODE_ENV === 'development'): string {
  // React rebuilds stack traces by eval, and styles change while they are edited.
  const evaluated = isDevelopment ? " 'unsafe-eval'" : '';
  const styles = isDevelopment ? "'unsafe-inline'" : `'nonce-${nonce}'`;
  return [
    "default-src 'none'",
    `script-src 'nonce-${nonce}' 'strict-dynamic'${evaluated}`,
    `style-src 'self' ${styles}`,
    "style-src-attr 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ');
}
