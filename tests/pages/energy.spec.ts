import { expect, type Page, test } from '@playwright/test';

/** How a page begins in the page tree of a PDF, which Chromium leaves uncompressed. */
const PDF_PAGE = /\/Type\s*\/Page\b(?!s)/g;

async function pageCount(page: Page, format: 'A4' | 'Letter'): Promise<number> {
  const pdf = await page.pdf({ format });
  return pdf.toString('latin1').match(PDF_PAGE)?.length ?? 0;
}

test('what fouling costs is answered in a sentence, for another period and one site alike', async ({
  page,
}) => {
  await page.goto('/');
  await page.getByRole('link', { name: 'Energy', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Energy and money', level: 1 })).toBeVisible();
  await expect(page.getByText(/^Fouling cost [\d,]+ ± [\d,]+\s€, .* the 30 days before/)).toBeVisible();
  await expect(page.getByText(/^Counted: \d+ of 37 units/)).toBeVisible();
  await expect(page.getByText(/^\d+ of \d+ units make 80 %\.$/)).toBeVisible();

  await page.getByRole('link', { name: 'last quarter' }).click();
  await expect(page).toHaveURL(/period=last-quarter/);
  await expect(page.getByText(/the 92 days before: /)).toBeVisible();

  await page.getByLabel('Site', { exact: true }).selectOption('Kaldholm Heat and Power');
  await page.getByRole('button', { name: 'Show', exact: true }).click();
  await expect(page).toHaveURL(/from=2026-07-01&to=2026-09-30&site=Kaldholm/);
  await expect(page.getByText(/^Counted: \d+ of 18 units/)).toBeVisible();
});

test('the dearest unit leads to its working, the cleanings to what each did', async ({ page }) => {
  await page.goto('/energy?period=last-quarter');
  const units = page.getByRole('region', { name: 'Which units' });
  await expect(units.getByRole('row').nth(1).getByRole('link')).toHaveAttribute(
    'href',
    /^\/units\/[^/]+\/cost$/,
  );
  const returned = page.getByRole('region', { name: 'What cleanings returned' });
  await expect(
    returned.getByText(/^\d+ cleanings cost [\d,]+\s€ and returned [\d,]+ ± [\d,]+\s€ so far/),
  ).toBeVisible();
  await returned.getByRole('link', { name: /^What each cleaning/ }).click();
  await expect(page).toHaveURL(/\/cleanings\?from=2026-07-01&to=2026-09-30/);
  await expect(page.getByRole('heading', { name: 'Cleanings', level: 1 })).toBeVisible();
});

test('the months stand as bars and as a table, the month of today marked', async ({ page }) => {
  await page.goto('/energy');
  const months = page.getByRole('region', { name: 'Month by month' });
  await expect(
    months.getByRole('img', { name: /^Energy bought in MWh by month, 18 months; the most in/ }),
  ).toBeVisible();
  await months.getByText('The same as a table').click();
  await expect(months.getByRole('row').nth(1)).toContainText('Nov 2026, incomplete');
});

test('a month prints on one page, A4 and Letter, nothing cut off at its side', async ({ page }) => {
  await page.goto('/energy/month?month=2026-10');
  await expect(page.getByRole('heading', { name: 'What fouling cost in Oct 2026' })).toBeVisible();
  await expect(page.getByText(/can kill/)).toBeVisible();
  for (const format of ['A4', 'Letter'] as const) expect(await pageCount(page, format)).toBe(1);
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('button')).toHaveCount(0);
  // A4 less its margins of 12 mm, at 96 dots an inch.
  await page.setViewportSize({ width: 703, height: 1032 });
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(overflow).toBeLessThanOrEqual(0);
});

test('the sheet leads to the month before and back to the days of its own', async ({ page }) => {
  await page.goto('/energy/month?month=2026-10');
  await page.getByRole('link', { name: 'Earlier month' }).click();
  await expect(page.getByRole('heading', { name: 'What fouling cost in Sep 2026' })).toBeVisible();
  await page.getByRole('link', { name: 'Energy and money' }).click();
  await expect(page).toHaveURL(/from=2026-09-01&to=2026-09-30/);
});

test('a site that is not there is not found', async ({ page }) => {
  expect((await page.goto('/energy?site=Nowhere'))?.status()).toBe(404);
  expect((await page.goto('/energy/month?site=Nowhere'))?.status()).toBe(404);
});
