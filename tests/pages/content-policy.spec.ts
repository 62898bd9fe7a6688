import { expect, type Page, test } from '@playwright/test';
import { pageAddresses } from '../security/page-addresses';

type Reported = { directive: string; blocked: string; sample: string };

/** Keeps what the browser reports as a breach of the page's policy. */
async function watchBreaches(page: Page): Promise<() => Promise<Reported[]>> {
  await page.addInitScript(() => {
    const kept: Reported[] = [];
    Object.assign(window, { breaches: kept });
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI, sample }) =>
      kept.push({ directive: effectiveDirective, blocked: blockedURI, sample }),
    );
  });
  return () => page.evaluate(() => (window as unknown as { breaches: Reported[] }).breaches);
}

/** What a page does when it was not found is no fault of its own. */
const NOT_FOUND = 'Failed to load resource: the server responded with a status of 404';

for (const address of [...pageAddresses(), '/nowhere', '/units/NO-UNIT']) {
  test(`${address} keeps to its policy, and works`, async ({ page, baseURL }) => {
    const breaches = await watchBreaches(page);
    const complaints: string[] = [];
    const elsewhere: string[] = [];
    page.on('pageerror', (error) => complaints.push(`${error}`));
    page.on('console', (message) => {
      const text = message.text();
      if (message.type() === 'error' && !text.startsWith(NOT_FOUND)) complaints.push(text);
    });
    page.on('request', (request) => {
      const own = request.url().startsWith(`${baseURL}/`) || /^(data|blob):/.test(request.url());
      if (!own) elsewhere.push(request.url());
    });
    const answer = await page.goto(address, { waitUntil: 'networkidle' });
    const isTheme = page.getByRole('radio', { name: 'Dark' });
    await isTheme.check({ force: true });
    await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark');
    expect(await breaches()).toEqual([]);
    expect(complaints).toEqual([]);
    expect(elsewhere).toEqual([]);
    expect(answer!.headers()['cache-control']).toContain('no-store');
    expect(answer!.headers()['x-content-type-options']).toBe('nosniff');
  });
}

const INJECTED = `<script>window.ran = 'inline'</script><img src="/nothing" onerror="window.ran = 'attribute'">
<script src="data:text/javascript,window.ran='data'"></script><script src="/api/v1/units"></script>
<base href="https://elsewhere.example/">`;

test('what somebody smuggles into a page does not run', async ({ page }) => {
  const breaches = await watchBreaches(page);
  await page.route('**/energy', async (route) => {
    const answer = await route.fetch();
    const body = (await answer.text()).replace('<body>', `<body>${INJECTED}`);
    await route.fulfill({ response: answer, body });
  });
  await page.goto('/energy', { waitUntil: 'networkidle' });
  expect(await page.evaluate(() => (window as unknown as { ran?: string }).ran)).toBeUndefined();
  expect(await page.evaluate(() => document.baseURI)).not.toContain('elsewhere');
  const directives = (await breaches()).map(({ directive }) => directive);
  expect(directives).toEqual(expect.arrayContaining(['script-src-elem', 'script-src-attr', 'base-uri']));
});

test('a form of another site changes nothing here', async ({ page, context, baseURL }) => {
  const statuses: number[] = [];
  page.on('response', (response) => {
    if (response.url().startsWith(`${baseURL}/`)) statuses.push(response.status());
  });
  const form = (action: string) =>
    `<form method="post" enctype="text/plain" action="${baseURL}${action}"><input name="x" value="1"></form>`;
  for (const action of ['/energy/prices', '/api/v1/prices']) {
    await context.route('http://elsewhere.example/**', (route) =>
      route.fulfill({ contentType: 'text/html', body: form(action) }),
    );
    await page.goto('http://elsewhere.example/lure');
    const answered = page.waitForResponse(`${baseURL}${action}`);
    await page.evaluate(() => document.forms[0]!.submit());
    expect((await answered).status()).toBe(403);
    await context.unroute('http://elsewhere.example/**');
  }
  expect(statuses.every((status) => status === 403)).toBe(true);
});

test('every kind of answer carries the headers that keep browsers careful', async ({ request, page }) => {
  await page.goto('/');
  const sheet = await page.locator('link[rel="stylesheet"]').first().getAttribute('href');
  const script = await page.locator('script[src]').first().getAttribute('src');
  for (const address of ['/', sheet!, script!, '/api/v1/units', '/api/nowhere', '/api/health', '/nowhere']) {
    const headers = (await request.get(address)).headers();
    expect(headers, address).toMatchObject({
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'same-origin',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
    });
    const policy = headers['content-security-policy'];
    expect(policy, address).toMatch(/default-src 'none'/);
    expect(policy, address).toMatch(/base-uri 'none'/);
    expect(policy, address).toMatch(/frame-ancestors 'none'/);
    expect(headers['x-powered-by']).toBeUndefined();
    expect(headers.server).toBeUndefined();
  }
});

test('nothing but pages is served: no sources, no folders, no traces', async ({ request, baseURL }) => {
  const addresses = [
    '/.git/config',
    '/.env',
    '/package.json',
    '/data/cleanby.db',
    '/_next/',
    '/_next/static/',
    '/_next/static/../../package.json',
    '/_next/static/%2e%2e/%2e%2e/package.json',
    '/_next/static/..%2f..%2fpackage.json',
    '/api/v1/../../package.json',
  ];
  for (const address of addresses) {
    const answer = await request.get(`${baseURL}${address}`);
    expect(answer.status(), address).toBeGreaterThanOrEqual(400);
    expect(await answer.text(), address).not.toMatch(/"name": "cleanby"|SQLite format|\[core\]/);
  }
  const traced = await request.fetch('/api/v1/units', { method: 'TRACE' }).catch(() => null);
  expect(traced?.status() ?? 405).toBeGreaterThanOrEqual(400);
});

test('what cannot be shown tells nothing of the inside', async ({ request }) => {
  for (const address of [
    '/units/%E0%A4%A',
    '/units/%00',
    `/units/${'x'.repeat(4000)}`,
    '/plan?%',
    '/?units[]=x&units=y',
  ]) {
    const answer = await request.get(address);
    const text = await answer.text();
    expect(text, address).not.toMatch(/\bat \S+ \(|node_modules|\/lib\/|\.ts:\d|SqliteError|Prisma/);
  }
});
