import { join } from 'node:path';
import type { NextConfig } from 'next';
import { NextRequest } from 'next/server';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { INERT_POLICY, pagePolicy } from '@/app/content-policy';
import { stateTransport } from '@/lib/auth/transport-policy';
import { proxy } from '@/proxy';

const HERE = 'localhost:4000';

const CONFIG = join(import.meta.dirname, '../../next.config.mjs');
const { default: nextConfig } = (await import(CONFIG)) as { default: NextConfig };

afterEach(() => vi.unstubAllEnvs());

type Sent = { method?: string; headers?: Record<string, string> };

/** What a browser is answered by a page, before the page itself. */
function ask(path: string, { method = 'GET', headers = {} }: Sent = {}): Response {
  return proxy(new NextRequest(`http://${HERE}${path}`, { method, headers: { host: HERE, ...headers } }));
}

function policyOf(response: Response): Map<string, string> {
  const policy = response.headers.get('content-security-policy')!;
  return new Map(
    policy.split('; ').map((directive) => {
      const [name, ...sources] = directive.split(' ') as [string, ...string[]];
      return [name, sources.join(' ')];
    }),
  );
}

/** A header as the page behind the proxy is given it. */
function passedOn(response: Response, name: string): string | null {
  return response.headers.get(`x-middleware-request-${name}`);
}

describe('the policy of a page', () => {
  it('lets only scripts run that carry the nonce of this answer, and what those load', () => {
    const scripts = policyOf(ask('/')).get('script-src')!;
    expect(scripts).toMatch(/^'nonce-[A-Za-z0-9+/]{24}' 'strict-dynamic'$/);
  });

  it('has a nonce that no other answer has', () => {
    const nonces = Array.from({ length: 100 }, () => policyOf(ask('/')).get('script-src')!);
    expect(new Set(nonces).size).toBe(100);
  });

  it('lets nothing in from elsewhere, no plugin, no frame, no other base and no form to elsewhere', () => {
    const policy = policyOf(ask('/units/E-1'));
    expect(Object.fromEntries([...policy].filter(([name]) => !name.startsWith('s')))).toEqual({
      'default-src': "'none'",
      'img-src': "'self' data: blob:",
      'font-src': "'self'",
      'connect-src': "'self'",
      'manifest-src': "'self'",
      'object-src': "'none'",
      'base-uri': "'none'",
      'form-action': "'self'",
      'frame-ancestors': "'none'",
    });
    expect([...policy.values()].join(' ')).not.toMatch(/https?:|\*|unsafe-eval/);
  });

  it('lets styles in as sheets of this server, and as attributes only', () => {
    const policy = policyOf(ask('/'));
    expect(policy.get('style-src')).toMatch(/^'self' 'nonce-[^']+'$/);
    expect(policy.get('style-src-attr')).toBe("'unsafe-inline'");
  });

  it('is told to the page behind it, whatever the request says of itself', () => {
    const forged = { 'content-security-policy': "script-src 'nonce-AAAA'", 'x-nonce': 'AAAA' };
    const response = ask('/', { headers: forged });
    expect(passedOn(response, 'content-security-policy')).toBe(
      response.headers.get('content-security-policy'),
    );
  });

  it('evaluates text as a program while the application is developed, and never otherwise', () => {
    expect(pagePolicy('n', true)).toContain("'unsafe-eval'");
    expect(pagePolicy('n', false)).not.toContain('unsafe-eval');
    expect(pagePolicy('n')).not.toContain('unsafe-eval');
  });
});

describe('what is no page', () => {
  it.each(['/_next/static/chunks/a.js', '/_next/image', '/_next/anything'])(
    'does nothing when it is opened by itself: %s',
    (path) => {
      expect(ask(path).headers.get('content-security-policy')).toBe(INERT_POLICY);
    },
  );

  it('has the same policy under /api, stated once for every answer there', async () => {
    const rules = await nextConfig.headers!();
    const under = rules.filter(({ source }) => source === '/api/:path*').flatMap(({ headers }) => headers);
    expect(under).toEqual([{ key: 'Content-Security-Policy', value: INERT_POLICY }]);
    expect(INERT_POLICY).toContain('sandbox');
  });
});

it('every answer says what browsers are not to do with it', async () => {
  const rules = await nextConfig.headers!();
  const everywhere = rules.find(({ source }) => source === '/:path*')!.headers;
  const stated = Object.fromEntries(everywhere.map(({ key, value }) => [key, value]));
  expect(stated).toMatchObject({
    'X-Content-Type-Options': 'nosniff',
    'X-Frame-Options': 'DENY',
    'Referrer-Policy': 'same-origin',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
  });
  expect(stated['Permissions-Policy']).toContain('camera=()');
  expect(nextConfig.poweredByHeader).toBe(false);
});

describe('who may ask for a page', () => {
  it.each(['rebound.example', 'rebound.example:4000', '10.0.0.7:4000', 'localhost.rebound.example', ''])(
    'nobody under the foreign name "%s"',
    async (host) => {
      const refused = ask('/', { headers: { host } });
      expect(refused.status).toBe(403);
      expect(refused.headers.get('content-security-policy')).toBe(INERT_POLICY);
      expect(await refused.text()).toContain('CLEANBY_HOSTS');
    },
  );

  it('whoever follows a link from elsewhere', () => {
    const followed = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' };
    expect(ask('/units/E-1', { headers: followed }).status).toBe(200);
  });

  it.each([
    [{ 'sec-fetch-site': 'cross-site' }, 403],
    [{ 'sec-fetch-site': 'same-site', origin: `http://${HERE}` }, 403],
    [{ origin: 'https://elsewhere.example' }, 403],
    [{ origin: 'http://localhost:5000' }, 403],
    [{ origin: 'null' }, 403],
    [{ origin: `http://${HERE}`, 'sec-fetch-site': 'same-origin' }, 200],
  ])('and send an action %j: %i', (headers: Record<string, string>, expected) => {
    const action = { 'next-action': '00'.repeat(20), 'content-type': 'text/plain;charset=UTF-8' };
    expect(ask('/plan', { method: 'POST', headers: { ...action, ...headers } }).status).toBe(expected);
  });
});

describe('what a proxy in front says', () => {
  const forwarded = {
    'x-forwarded-host': 'elsewhere.example, plant-server',
    'x-forwarded-proto': 'https',
    'x-forwarded-for': '203.0.113.9',
  };

  it('is not believed: a request can say anything', () => {
    const response = ask('/', { headers: { ...forwarded, 'x-forwarded-host': 'elsewhere.example' } });
    expect(response.status).toBe(200);
    expect(passedOn(response, 'x-forwarded-host')).toBe(HERE);
    expect(transportOf(forwarded)).toBeUndefined();
  });

  it('is believed where CLEANBY_TRUST_PROXY says so, its own last entry only', () => {
    vi.stubEnv('CLEANBY_TRUST_PROXY', '1');
    vi.stubEnv('CLEANBY_HOSTS', 'plant-server');
    const response = ask('/', { headers: forwarded });
    expect(response.status).toBe(200);
    expect(passedOn(response, 'x-forwarded-host')).toBe('plant-server');
    expect(ask('/', { headers: { ...forwarded, 'x-forwarded-host': 'elsewhere.example' } }).status).toBe(403);
  });

  it('a browser that came by https is told to come by https for a year', () => {
    vi.stubEnv('CLEANBY_TRUST_PROXY', '1');
    expect(transportOf(forwarded)).toBe('max-age=31536000; includeSubDomains');
    expect(transportOf({ 'x-forwarded-proto': 'https, http' })).toBeUndefined();
    expect(transportOf({})).toBeUndefined();
  });
});

function transportOf(headers: Record<string, string>): string | undefined {
  const stated: Record<string, string> = {};
  const response = { setHeader: (name: string, value: string) => (stated[name] = value) };
  stateTransport({ headers }, response as never);
  return stated['Strict-Transport-Security'];
}
