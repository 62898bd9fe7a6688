import { expect, test } from '@playwright/test';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { PAGES_NOW } from '../support/pages-clock';
import { readingsCsv } from '../support/readings-csv';

const DAY = 86_400_000;
const TAG = 'WALK-1';

/** A unit of its own, and four months of its readings in which two rows are broken. */
function newUnit() {
  const plan = makeHeldOutFleet(31, 1).plans[0]!;
  const unit = { ...plan.unit, tag: TAG, service: 'Unit of the walk' };
  const end = Date.parse(PAGES_NOW);
  const { readings } = generateReadings(
    { ...plan, unit },
    { start: end - 120 * DAY, end, stepMs: 3_600_000, seed: 31 },
  );
  const lines = readingsCsv(unit, readings).split('\n');
  lines[5] = lines[5]!.replace(/T[^,]*/, 'T99:00:00Z');
  lines[9] = 'torn li';
  return { unit, csv: lines.join('\n') };
}

test('from a CSV to the trend, the formula, and the other unit system', async ({ page, request }) => {
  const { unit, csv } = newUnit();
  const site = { name: 'Walk site', timeZone: 'Europe/Lisbon', currency: 'EUR' };
  const saved = await request.post('/api/v1/units', { data: { site, unit } });
  expect(saved.ok(), await saved.text()).toBe(true);

  await test.step('import a CSV: looked at first, then taken in, broken rows kept aside', async () => {
    await page.goto('/');
    await page.getByRole('link', { name: 'Import', exact: true }).click();
    await expect(page.getByRole('heading', { name: 'Import readings' })).toBeVisible();
    await page
      .getByTestId('readings-file')
      .setInputFiles({ name: 'walk.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) });
    await page.getByRole('button', { name: /^Import/ }).click();
    await expect(page.getByRole('heading', { name: 'Kept aside' })).toBeVisible({ timeout: 30_000 });
    await expect(page.getByText('torn li').first()).toBeVisible();
  });

  await test.step('see the trend of the unit', async () => {
    await page.getByRole('link', { name: TAG }).click();
    await expect(page.getByRole('heading', { level: 1, name: TAG })).toBeVisible();
    await expect(page.getByRole('img', { name: /[Ff]ouling resistance/ }).first()).toBeVisible();
    await expect(page.getByText('m²·K/kW').first()).toBeVisible();
  });

  await test.step('open the formula with the figures put in', async () => {
    await page
      .getByRole('link', { name: /how was this worked out/i })
      .first()
      .click();
    await expect(page).toHaveURL(/how=/);
    await expect(page.getByRole('heading', { name: 'How was this worked out?' })).toBeVisible();
    await expect(page.getByText('As read').first()).toBeVisible();
  });

  await test.step('change the unit system', async () => {
    await page
      .getByRole('radio', { name: /US/ })
      .or(page.getByRole('button', { name: /^US/ }))
      .first()
      .click();
    await expect(page.getByText('h·ft²·°F/Btu').first()).toBeVisible();
  });
});

test('the fleet by keyboard: find, move, open, come back', async ({ page }) => {
  await page.goto('/');
  await expect(page.getByRole('heading', { level: 1, name: 'Fleet' })).toBeVisible();
  await page.keyboard.press('/');
  await page.keyboard.type('SC-15');
  await expect(page).toHaveURL(/SC-15/);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/\/units\/SC-15/);
  await page.goBack();
  await expect(page).toHaveURL(/SC-15/);
});

test('keys pressed before the rows they mean are here', async ({ page }) => {
  const beginFinding = async () => {
    await page.goto('/');
    await expect(page.getByRole('heading', { level: 1, name: 'Fleet' })).toBeVisible();
    await page.keyboard.press('/');
  };
  await page.route('**/api/fleet/rows?*', async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 800));
    await route.continue();
  });
  await test.step('arrow down and Enter open the first row found', async () => {
    await beginFinding();
    await page.keyboard.type('SC-1');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect(page).toHaveURL(/\/units\/SC-1\d/);
  });
  await test.step('Enter alone opens the only unit found', async () => {
    await beginFinding();
    await page.keyboard.type('SC-152');
    await page.keyboard.press('Enter');
    await expect(page).toHaveURL(/\/units\/SC-152/);
  });
  await test.step('typing on takes an earlier key back', async () => {
    await beginFinding();
    await page.keyboard.type('SC-1');
    await page.keyboard.press('Enter');
    const busy = page.locator('[aria-busy=true]');
    await page.keyboard.press('5');
    await expect(busy).toHaveCount(1);
    await expect(busy).toHaveCount(0);
    await expect(page.getByRole('searchbox')).toBeFocused();
    // Its rows may have come before.
    await page.keyboard.press('Backspace');
    await expect(page).toHaveURL(/\?find=SC-1$/);
    await expect(busy).toHaveCount(0);
    await expect(page.getByRole('searchbox')).toBeFocused();
  });
  await test.step('and goes to the first of several', async () => {
    await beginFinding();
    await page.keyboard.type('SC-1');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('link', { name: /^SC-1\d/ }).first()).toBeFocused();
    await expect(page).toHaveURL(/\?find=SC-1$/);
  });
});

test('recording a cleaning ends the running cycle and begins a new one', async ({ page, request }) => {
  const { unit, csv } = newUnit();
  const tag = 'WALK-2';
  const site = { name: 'Walk site', timeZone: 'Europe/Lisbon', currency: 'EUR' };
  await request.post('/api/v1/units', { data: { site, unit: { ...unit, tag } } });
  const taken = await request.post('/api/v1/imports?name=walk-2.csv', {
    data: csv.replaceAll(TAG, tag),
    headers: { 'Content-Type': 'text/csv' },
  });
  expect(taken.ok(), await taken.text()).toBe(true);
  await page.goto(`/units/${tag}`);
  await expect(page.getByText(/licensed practice/)).toBeVisible();
  await page.getByLabel(/Back in service/).fill('2026-10-01T08:00');
  await page.getByLabel(/Method/).fill('circulation');
  await page.getByRole('button', { name: 'Record cleaning' }).click();
  await expect(page.getByRole('row', { name: /1 Oct 2026/ }).first()).toBeVisible();
});
