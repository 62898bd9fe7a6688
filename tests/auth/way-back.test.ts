import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { signInAddress, wayBack } from '@/app/access/way-back';

const HERE = 'http://127.0.0.1:4000';

describe('the way back after signing in', () => {
  it.each(['/', '/plan', '/units/SC-151?view=table&days=30', '/units/A%2FB', '/review?week=2026-W40'])(
    'leads to the page that was asked for: %s',
    (asked) => {
      expect(wayBack(asked)).toBe(asked);
    },
  );

  it.each([
    'https://elsewhere.example/',
    '//elsewhere.example',
    '/\\elsewhere.example',
    '/\t/elsewhere.example',
    '\t//elsewhere.example',
    'javascript:alert(1)',
    'elsewhere.example',
    '/..//elsewhere.example',
    '/%2e%2e//elsewhere.example',
    '/api/v1/units',
    '/_next/x',
    '',
    `/${'a'.repeat(3000)}`,
    null,
    undefined,
    ['/plan'],
  ])('leads nowhere else: %j', (asked) => {
    expect(wayBack(asked)).toBe('/');
  });

  it('stays on this server whatever is asked', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.webUrl(),
          fc.webPath().map((path) => `/${path}`),
        ),
        (asked) => {
          const led = wayBack(asked);
          expect(new URL(led, HERE).origin).toBe(HERE);
          expect(led.startsWith('/') && !led.startsWith('//')).toBe(true);
        },
      ),
      { seed: 6, numRuns: 2000 },
    );
  });

  it('is told to the sign-in page', () => {
    expect(signInAddress('/plan?x=1&y=2')).toBe('/sign-in?to=%2Fplan%3Fx%3D1%26y%3D2');
    expect(signInAddress('/')).toBe('/sign-in');
    expect(signInAddress('//elsewhere.example')).toBe('/sign-in');
  });
});
