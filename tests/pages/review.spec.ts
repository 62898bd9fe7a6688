import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

/** How a page begins in the page tree of a PDF, which Chromium leaves uncompressed. */
const PDF_PAGE = /\/Type\s*\/Page\b(?!s)/g;

async function pageCount(page: Page, format: 'A4' | 'Letter'): Promise<number> {
  const pdf = await page.pdf({ format });
  return pdf.toString('latin1').match(PDF_PAGE)?.length ?? 0;
}

test('a week of the fleet is listed, marked, filtered, and stays so after loading it again', async ({
  page,
}) => {
  await page.goto('/');
  await page.getByRole('link', { name: 'Review', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Weekly review' })).toBeVisible();
  await expect(page.getByText(/18 Nov 2026 to 25 Nov 2026/)).toBeVisible();
  await expect(page.getByText(/units? needs? somebody this week/)).toBeVisible();
  const act = page.getByRole('region', { name: /Act this week/ });
  const first = act
    .getByRole('listitem')
    .filter({ has: page.getByRole('heading') })
    .first();
  const tag = (await first.getByRole('heading').textContent()) ?? '';

  await first
    .getByText(/^Assign or note/)
    .first()
    .click();
  await first.getByLabel('Assign to').first().fill('Planning');
  await page.keyboard.press('Enter');
  await expect(first.getByText(/assigned to Planning by Demo administrator/)).toBeVisible();
  await first.getByLabel('Note').first().fill('asked for a slot in week 50');
  await page.keyboard.press('Enter');
  await expect(first.getByText(/Demo administrator: asked for a slot in week 50/)).toBeVisible();
  await first.getByRole('button', { name: /^Seen/ }).first().focus();
  await page.keyboard.press('Enter');
  const seen = page.getByRole('region', { name: /^Seen/ });
  await expect(seen.getByRole('heading', { name: tag })).toBeVisible();
  await expect(seen.getByText(/seen by Demo administrator/)).toBeVisible();

  await page.reload();
  await expect(seen.getByText(/seen by Demo administrator/)).toBeVisible();

  await page.getByLabel('Assigned to').selectOption('Planning');
  await page.getByRole('button', { name: 'Show', exact: true }).click();
  await expect(page).toHaveURL(/assigned=Planning/);
  await expect(page.getByRole('heading', { level: 3 })).toHaveText([tag]);
  await page.getByLabel('Lines').selectOption('unseen');
  await page.getByRole('button', { name: 'Show', exact: true }).click();
  await expect(page.getByText('No line passes the filter')).toBeVisible();
  await page.getByRole('link', { name: 'Show all lines' }).click();
  await expect(page.getByRole('heading', { level: 3 }).first()).toBeVisible();
});

test('a line leads to its place on the page of the unit', async ({ page }) => {
  await page.goto('/review?since=2026-10-25');
  const link = page.getByRole('link', { name: /^Look at it on the page of SC-151/ });
  await expect(link.first()).toHaveAttribute('href', '/units/SC-151?period=cycle#charts');
  await link.first().click();
  await expect(page.getByRole('heading', { name: 'SC-151', level: 1 })).toBeVisible();
});

test('the week prints on one page, without controls, the cautions on it', async ({ page }) => {
  await page.goto('/review');
  await expect(page.getByText(/can kill/)).toBeVisible();
  expect(await pageCount(page, 'A4')).toBe(1);
  expect(await pageCount(page, 'Letter')).toBe(1);
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByText(/can kill/)).toBeVisible();
  await expect(page.getByRole('button')).toHaveCount(0);
  await expect(page.getByText(/^Marks are made as/)).toBeHidden();
});

test('a day on which nothing changed says so, and where to look', async ({ page }) => {
  await page.goto('/review?since=2026-11-25');
  await expect(page.getByText(/nothing has changed since a day that is not before it/)).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Nothing changed since 25 Nov 2026' })).toBeVisible();
  await page.getByRole('link', { name: 'Look back to 18 Nov 2026' }).click();
  await expect(page.getByText(/somebody this week/)).toBeVisible();
});

test('an address that cannot be read shows the usual week; a site that is not there is not found', async ({
  page,
}) => {
  await page.goto('/review?since=monday&show=some');
  await expect(page.getByText(/18 Nov 2026 to 25 Nov 2026/)).toBeVisible();
  expect((await page.goto('/review?site=Nowhere'))?.status()).toBe(404);
});

for (const theme of ['light', 'dark']) {
  for (const width of [1440, 390]) {
    test(`axe finds no fault in the review: ${theme}, ${width} px`, async ({ page, context, baseURL }) => {
      await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
      await page.setViewportSize({ width, height: 900 });
      await page.goto('/review?since=2026-10-25');
      await page
        .getByText(/^Assign or note/)
        .first()
        .click();
      await page.getByText('How lines are chosen').click();
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
    });
  }
}
