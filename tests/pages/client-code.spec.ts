import { gzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { clientCode, MOST_CLIENT_CODE } from '../support/client-scripts';

test('no page asks a browser for more than 250 kB of scripts, compressed', () => {
  const pages = clientCode();
  expect(pages.length).toBeGreaterThan(25);
  for (const { page, bytes } of pages) expect(bytes, `scripts of ${page}`).toBeLessThan(MOST_CLIENT_CODE);
});

/** Pages with most to do in the browser: what they load on their own, nobody touching them, counts too. */
const BUSIEST = [
  '/',
  '/units/AD-261',
  '/units/AD-261/cost',
  '/plan',
  '/import',
  '/new-unit',
  '/units/AD-261/setup',
];

for (const address of BUSIEST) {
  test(`${address} loads no more than that until somebody does something`, async ({ page }) => {
    const scripts = new Map<string, Promise<number>>();
    page.on('response', (response) => {
      if (response.request().resourceType() !== 'script') return;
      scripts.set(
        response.url(),
        response.body().then((body) => gzipSync(body).length),
      );
    });
    await page.goto(address, { waitUntil: 'networkidle' });
    const sizes = await Promise.all(scripts.values());
    expect(sizes.length).toBeGreaterThan(3);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(MOST_CLIENT_CODE);
  });
}
