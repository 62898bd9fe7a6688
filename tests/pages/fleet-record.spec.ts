import AxeBuilder from '@axe-core/playwright';
import { expect, test } from '@playwright/test';

const PAGES = ['/cleanings?period=last-12-months', '/record', '/health'];
const LOOKS = [
  { theme: 'light', width: 1440 },
  { theme: 'dark', width: 390 },
] as const;

for (const { theme, width } of LOOKS) {
  for (const address of PAGES) {
    test(`axe finds no fault: ${address}, ${theme}, ${width} px`, async ({ page, context, baseURL }) => {
      await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
      await page.setViewportSize({ width, height: 900 });
      await page.goto(address, { waitUntil: 'networkidle' });
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
    });
  }
}

test('did the cleanings pay, how did past projections do, which data to mend: by keyboard', async ({
  page,
}) => {
  await page.goto('/');
  await page.getByRole('link', { name: 'Looking back' }).press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Cleanings' })).toBeVisible();

  await test.step('the period stands in the address', async () => {
    await page.getByRole('link', { name: 'last 12 months' }).press('Enter');
    await expect(page).toHaveURL(/period=last-12-months/);
    await expect(
      page.getByText(/^Worth at least [\d,]+\s€ so far, against [\d,]+\s€ that they cost/),
    ).toBeVisible();
    await expect(page.getByRole('region', { name: 'Cleaning methods by what' })).toBeVisible();
  });

  await test.step('past projections, half way and three quarters of the way', async () => {
    await page.getByRole('link', { name: 'Past projections', exact: true }).press('Enter');
    await expect(page.getByText(/^Of \d+ past projections made half way through a cycle/)).toBeVisible();
    await page.getByRole('link', { name: 'three quarters of the way' }).press('Enter');
    await expect(page).toHaveURL('/record?life=75');
    await expect(page.getByText(/made three quarters of the way through a cycle/)).toBeVisible();
    await expect(page.getByRole('img', { name: /^Half way: \d+ past projections, held/ })).toBeVisible();
  });

  await test.step('data health leads into the unit, at the readings left out', async () => {
    await page.getByRole('link', { name: 'Data health' }).press('Enter');
    await expect(page.getByRole('heading', { name: 'What to do first' })).toBeVisible();
    const absent = page.getByRole('region', { name: 'Units without usable data' });
    await absent.getByRole('link', { name: 'AD-261' }).press('Enter');
    await expect(page).toHaveURL(/\/units\/AD-261\?from=.*#left-out$/);
    await expect(page.getByRole('heading', { level: 1, name: 'AD-261' })).toBeVisible();
  });
});

test('the same lists as JSON and CSV; a period that is none is refused', async ({ request }) => {
  for (const name of ['record', 'health', 'cleanings']) {
    const json = await request.get(`/api/v1/${name}`);
    expect(json.ok(), name).toBe(true);
    expect(((await json.json()) as { asOf: string }).asOf).toContain('2026-11-25');
    const csv = await request.get(`/api/v1/${name}?format=csv`);
    expect(csv.headers()['content-type']).toContain('text/csv');
    expect((await csv.text()).split('\r\n')[0]).toMatch(/^tag,service,site,/);
  }
  const refused = await request.get('/api/v1/cleanings?from=2026-02-30&to=2026-03-01');
  expect(refused.status()).toBe(422);
  expect(((await refused.json()) as { errors: { field: string }[] }).errors[0]!.field).toBe('from');
});

test('the cleanings of a month print on wide sheets without controls', async ({ page }) => {
  await page.goto('/cleanings?period=last-12-months');
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('heading', { level: 1, name: 'Cleanings' })).toBeVisible();
  await expect(page.getByRole('navigation', { name: 'Looking back' })).toBeHidden();
  await expect(page.getByRole('link', { name: 'last 12 months' })).toBeHidden();
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = await page.pdf({ format, preferCSSPageSize: format === 'A4' });
    expect(pdf.byteLength).toBeGreaterThan(10_000);
  }
});
