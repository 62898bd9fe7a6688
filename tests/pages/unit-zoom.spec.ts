import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

/** A unit that no other test changes. */
const UNIT = '/units/AD-261';

const shown = (page: Page) => page.locator('#charts [role=status]');
const first = (page: Page) => page.locator('#figure-fouling [role=img]');
const from = (page: Page) => new URL(page.url()).searchParams.get('from');

/** Draws a stretch across the first chart, by shares of its width. */
async function draw(page: Page, begin: number, end: number) {
  const box = (await first(page).boundingBox())!;
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + begin * box.width, y);
  await page.mouse.down();
  await page.mouse.move(box.x + ((begin + end) / 2) * box.width, y, { steps: 3 });
  await page.mouse.move(box.x + end * box.width, y, { steps: 3 });
  await page.mouse.up();
}

test('a stretch drawn across a chart is shown on every chart, and the address leads back to it', async ({
  page,
}) => {
  await page.goto(`${UNIT}?period=all`);
  const before = await shown(page).textContent();
  await first(page).scrollIntoViewIfNeeded();
  await draw(page, 0.3, 0.45);
  await expect(shown(page)).toContainText('Shown:');
  await expect(shown(page)).not.toHaveText(before!);
  await expect(page).toHaveURL(/from=\d{4}-\d{2}-\d{2}&to=/);
  const closer = await shown(page).textContent();
  const pictures = await page
    .locator('#charts figure [role=img]')
    .evaluateAll((charts) => charts.map((chart) => chart.getAttribute('aria-label')));
  await page.reload();
  await expect(shown(page)).toHaveText(closer!);
  // What the route drew is what the page draws for the same address.
  expect(
    await page
      .locator('#charts figure [role=img]')
      .evaluateAll((charts) => charts.map((chart) => chart.getAttribute('aria-label'))),
  ).toEqual(pictures);
  await page.goBack();
  await expect(shown(page)).toHaveText(before!);
});

test('buttons, keys and a wheel held with Ctrl look closer and back, and keys add up', async ({ page }) => {
  await page.goto(`${UNIT}?period=all`);
  const all = await shown(page).textContent();
  await page.getByRole('link', { name: 'Zoom in' }).click();
  await expect(shown(page)).not.toHaveText(all!);
  await expect(page).toHaveURL(/from=/);
  const half = from(page);
  await page.getByRole('link', { name: 'Zoom in' }).focus();
  await page.keyboard.press('+');
  await page.keyboard.press('+');
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => from(page)).not.toBe(half);
  await page.keyboard.press('0');
  await expect(page).not.toHaveURL(/from=/);
  const opened = await shown(page).textContent();
  await first(page).hover();
  await page.keyboard.down('Control');
  await page.mouse.wheel(0, -100);
  await page.keyboard.up('Control');
  await expect(shown(page)).not.toHaveText(opened!);
  await page.getByRole('link', { name: 'Reset' }).click();
  await expect(shown(page)).toHaveText(opened!);
});

test('without a script the period, the zoom and any two days are links and a form, and the charts are there', async ({
  browser,
}) => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(`${UNIT}?period=all`);
  await expect(page.locator('#figure-fouling svg path').first()).toBeAttached();
  const before = await shown(page).textContent();
  await page.getByRole('link', { name: 'Zoom in' }).click();
  await expect(page).toHaveURL(/from=/);
  expect(await shown(page).textContent()).not.toBe(before);
  await context.close();
});

test('the values under the pointer are told, and a click works the reading out', async ({ page }) => {
  await page.goto(`${UNIT}?period=90d`);
  const chart = page.locator('#figure-temperatures [role=img]');
  await chart.scrollIntoViewIfNeeded();
  const box = (await chart.boundingBox())!;
  await expect(async () => {
    await page.mouse.move(box.x + box.width * (0.3 + 0.01 * Math.random()), box.y + box.height / 2);
    await expect(page.getByText('Click to work this reading out')).toBeVisible({ timeout: 500 });
  }).toPass();
  await chart.click({ position: { x: box.width * 0.3, y: box.height / 2 } });
  await expect(page).toHaveURL(/reading=.*how=1/);
});

test('the looked-at charts hold no barrier that a machine can find', async ({ page }) => {
  await page.goto(`${UNIT}?period=all`);
  await page.getByRole('link', { name: 'Zoom in' }).click();
  await expect(page).toHaveURL(/from=/);
  const { violations } = await new AxeBuilder({ page }).include('#charts').analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
});
