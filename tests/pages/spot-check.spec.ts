import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

const PAGE = '/units/SC-152/spot-check';

/** How a page begins in the page tree of a PDF, which Chromium leaves uncompressed. */
const PDF_PAGE = /\/Type\s*\/Page\b(?!s)/g;

async function pageCount(page: Page): Promise<number> {
  const pdf = await page.pdf({ format: 'A4' });
  return pdf.toString('latin1').match(PDF_PAGE)?.length ?? 0;
}

test('readings typed by hand are worked out, the link shows the same, and they print on two pages', async ({
  page,
}) => {
  await page.goto('/units/SC-152');
  await page.getByRole('link', { name: 'Spot check' }).first().click();
  await expect(page.getByRole('heading', { name: 'Nothing to work out yet' })).toBeVisible();
  await expect(page.getByText(/is not stored/)).toBeVisible();
  await page.getByRole('link', { name: 'Start from the last reading' }).click();
  await expect(page.getByRole('heading', { name: 'Result' })).toBeVisible();
  const hotIn = page.getByLabel('Hot inlet', { exact: true });
  const last = await hotIn.inputValue();
  await hotIn.fill(`${Number(last) + 0.1}`);
  await page.getByLabel('Thermometer, ±', { exact: true }).fill('0.5');
  await page.getByRole('textbox', { name: 'By' }).fill('Shift B');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await expect(page).toHaveURL(/temperatureUncertainty=0\.5/);
  await expect(page.getByText(/hand instrument, ± 0\.50 K/)).toBeVisible();
  await expect(page.getByText('of the allowance used')).toBeVisible();
  await expect(page.getByText(/χ² = /)).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Fouling resistance and cleanliness' })).toBeVisible();

  const figures = await page.locator('#result').textContent();
  const other = await page.context().newPage();
  await other.goto(page.url());
  expect(await other.locator('#result').textContent()).toBe(figures);
  await other.close();
  expect(await pageCount(page)).toBeLessThanOrEqual(2);

  await page.goBack();
  await expect(hotIn).toHaveValue(last);
});

test('a reading that cannot count says why and what to do; a field that cannot be read says so itself', async ({
  page,
}) => {
  await page.goto(`${PAGE}?hotIn=60&coldIn=20&coldOut=30`);
  await expect(page.getByText('Values missing.')).toBeVisible();
  await expect(page.getByText(/^.*Measure the .* as well/)).toBeVisible();
  await page.goto(`${PAGE}?hotIn=sixty`);
  await expect(page.getByText('write a plain number, such as 12.5')).toBeVisible();
});

for (const theme of ['light', 'dark']) {
  for (const width of [1440, 390]) {
    test(`axe finds no fault in a spot check: ${theme}, ${width} px`, async ({ page, context, baseURL }) => {
      await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
      await page.setViewportSize({ width, height: 900 });
      await page.goto(PAGE);
      await page.getByRole('link', { name: 'Start from the last reading' }).click();
      await expect(page.getByRole('heading', { name: 'Result' })).toBeVisible();
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
    });
  }
}
