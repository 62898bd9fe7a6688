import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

const TAG = 'TL-221';
const LOOKS = ['light', 'dark'].flatMap((theme) => [1440, 390].map((width) => ({ theme, width })));

async function violations(page: Page): Promise<string[]> {
  const found = await new AxeBuilder({ page }).analyze();
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

test('a cleaning that is recorded and corrected is found among the changes, with what it was before', async ({
  page,
}) => {
  test.slow();
  await page.goto(`/units/${TAG}`);
  const form = page.getByRole('region', { name: 'Record a cleaning' });
  await form.getByLabel('Back in service').fill('2026-11-20T09:15');
  await form.getByLabel('Cost').fill('800');
  await form.getByRole('button', { name: 'Record cleaning' }).click();
  await expect(form.getByText(/^Recorded:/)).toBeVisible();
  await page.getByRole('button', { name: 'Correct: cleaning of 20 Nov 2026, 09:15' }).click();
  const dialog = page.getByRole('dialog', { name: 'Correct a recorded cleaning' });
  await dialog.getByLabel('Cost').fill('850');
  await dialog.getByLabel('Why it is corrected').fill('invoice');
  await dialog.getByRole('button', { name: 'Correct', exact: true }).click();
  await expect(dialog).toBeHidden();
  await page.getByText('Corrected or withdrawn: 1').click();
  await expect(page.getByRole('row', { name: /800.*corrected.*Demo administrator.*invoice/ })).toBeVisible();

  await page.getByRole('link', { name: `Changes of ${TAG}` }).click();
  await expect(page).toHaveURL(`/changes?name=${TAG}`);
  const lines = page.getByRole('list', { name: 'Changes, the newest first' }).getByRole('listitem');
  await expect(lines.first()).toContainText('Demo administrator');
  await expect(lines.first()).toContainText(`Cleaning of ${TAG}, 20 Nov 2026, 09:15: Cost 800 → 850`);
  await lines.first().locator('summary').focus();
  await page.keyboard.press('Enter');
  await expect(lines.first().getByRole('row', { name: 'Cost 800 850' })).toBeVisible();
  await expect(lines.first().getByText('“invoice”')).toBeVisible();

  await page.getByLabel('What became of it').selectOption('added');
  await page.getByRole('button', { name: 'Show', exact: true }).click();
  await expect(page).toHaveURL(/action=added/);
  await expect(lines.first()).toContainText(`Cleaning of ${TAG} recorded: 20 Nov 2026, 09:15`);
  const file = await page.request.get((await page.getByRole('link', { name: /^CSV/ }).getAttribute('href'))!);
  expect(await file.text()).toContain('20 Nov 2026');

  await page.getByLabel('Who').fill('nobody of this name');
  await page.getByRole('button', { name: 'Show', exact: true }).click();
  await page.getByRole('link', { name: 'Show all changes' }).click();
  await expect(page).toHaveURL('/changes');
});

test('two people correct one cleaning: the second is told, keeps what was typed, and can put it on top', async ({
  page,
  context,
}) => {
  test.slow();
  const unit = '/units/TL-222';
  await page.goto(unit);
  const form = page.getByRole('region', { name: 'Record a cleaning' });
  await form.getByLabel('Back in service').fill('2026-11-20T09:15');
  await form.getByRole('button', { name: 'Record cleaning' }).click();
  await expect(form.getByText(/^Recorded:/)).toBeVisible();
  const other = await context.newPage();
  await other.goto(unit);
  const name = 'Correct: cleaning of 20 Nov 2026, 09:15';
  const open = async (each: Page, cost: string) => {
    await each.getByRole('button', { name }).click();
    const dialog = each.getByRole('dialog');
    await dialog.getByLabel('Cost').fill(cost);
    await dialog.getByLabel('Why it is corrected').fill('invoice');
    return dialog;
  };
  const [mine, theirs] = [await open(page, '700'), await open(other, '600')];
  await theirs.getByRole('button', { name: 'Correct', exact: true }).click();
  await expect(theirs).toBeHidden();
  await mine.getByRole('button', { name: 'Correct', exact: true }).click();
  await expect(mine.getByRole('alert')).toContainText(/has been changed since you opened it, by Demo admin/);
  await expect(mine.getByRole('alert')).toContainText('→ 600');
  await expect(mine.getByLabel('Cost')).toHaveValue('700');
  await mine.getByRole('button', { name: 'Correct', exact: true }).click();
  await expect(mine).toBeHidden();
  await page.goto('/changes?name=TL-222&subject=cleaning');
  const lines = page.getByRole('list', { name: 'Changes, the newest first' }).getByRole('listitem');
  await expect(lines.first()).toContainText('Cost 600 → 700');
});

for (const { theme, width } of LOOKS) {
  test(`axe finds no fault in the changes: ${theme}, ${width} px`, async ({ page, context, baseURL }) => {
    await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
    await page.setViewportSize({ width, height: 900 });
    await page.goto('/changes');
    await page.locator('summary').first().click();
    expect(await violations(page)).toEqual([]);
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overflow).toBeLessThanOrEqual(0);
  });
}
