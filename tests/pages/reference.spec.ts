import { expect, test } from '@playwright/test';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { PAGES_NOW } from '../support/pages-clock';
import { readingsCsv } from '../support/readings-csv';

const DAY = 86_400_000;
const TAG = 'REF-1';

test('a clean reference is looked at, accepted with who and why, and named in the working', async ({
  page,
  request,
}) => {
  const plan = makeHeldOutFleet(31, 1).plans[0]!;
  const unit = { ...plan.unit, tag: TAG };
  const end = Date.parse(PAGES_NOW);
  const span = { start: end - 40 * DAY, end, stepMs: 3_600_000, seed: 31 };
  const csv = readingsCsv(unit, generateReadings({ ...plan, unit }, span).readings);
  const site = { name: 'Reference site', timeZone: 'Europe/Lisbon', currency: 'EUR' };
  expect((await request.post('/api/v1/units', { data: { site, unit } })).ok()).toBe(true);
  expect((await request.post('/api/v1/imports?name=reference.csv', { data: csv })).ok()).toBe(true);

  await test.step('open the page from the datasheet', async () => {
    await page.goto(`/units/${TAG}`);
    await page.getByRole('link', { name: 'Clean reference', exact: true }).click();
    await expect(page.getByRole('heading', { level: 1, name: `Clean reference of ${TAG}` })).toBeVisible();
    await expect(page.getByText('None was accepted yet')).toBeVisible();
  });

  await test.step('look at one factor learned from the usual period', async () => {
    await page.getByRole('radio', { name: /one factor, learned/ }).check();
    await page.getByRole('button', { name: 'Look at it' }).click();
    await expect(page.getByRole('heading', { name: /Worked out, not stored/ })).toBeVisible();
    await expect(page.getByRole('table', { name: 'What it would change' })).toBeVisible();
  });

  await test.step('accept it', async () => {
    await page.getByLabel('Why').fill('inspected clean');
    await page.getByRole('button', { name: 'Accept this reference' }).click();
    await expect(page.getByRole('row', { name: /in force.*inspected clean/ })).toBeVisible();
  });

  await test.step('find it named where a reading is worked out', async () => {
    await page.goto(`/units/${TAG}?how=1`);
    await expect(page.getByText(/clean reference 1, accepted by Demo administrator/).first()).toBeVisible();
  });
});
