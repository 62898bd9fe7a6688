import type { Standing } from '@/lib/auth/rate-limit';

/** How the limits stand, as draft-ietf-httpapi-ratelimit-headers-10 writes it. */
export function limitHeaders(standings: Standing[]): Record<string, string> {
  const list = (entry: (standing: Standing) => string) => standings.map(entry).join(', ');
  return {
    'RateLimit-Policy': list(({ name, quota, window }) => `"${name}";q=${quota};w=${window}`),
    RateLimit: list(({ name, remaining, reset }) => `"${name}";r=${remaining};t=${Math.ceil(reset)}`),
  };
}
