import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

/** A unit of the demo fleet that was cleaned once without anybody writing it down. */
const FALLEN = '/units/DH-202';
/** Another one, on which a period is judged. */
const JUDGED = '/units/DH-201?from=2026-09-01&to=2026-11-20';

async function violations(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`);
}

test('a person leaves a period out, sees it on the charts and in the history, and withdraws it', async ({
  page,
}) => {
  await page.goto(JUDGED);
  const section = page.getByRole('region', { name: 'Judged by people' });

  await test.step('a period that ends before it begins is refused at its field', async () => {
    await section.getByLabel('From', { exact: true }).fill('2026-10-10T08:00');
    await section.getByLabel('To', { exact: true }).fill('2026-10-09T08:00');
    await section.getByLabel('Why', { exact: true }).fill('hot meter out for calibration');
    await section.getByRole('button', { name: 'Judge this period' }).click();
    await expect(section.getByLabel('To', { exact: true })).toHaveAccessibleDescription(/must lie after/);
    await expect(section.getByLabel('Why', { exact: true })).toHaveValue('hot meter out for calibration');
  });

  await test.step('once it is right, its readings no longer count', async () => {
    await section.getByLabel('To', { exact: true }).fill('2026-10-24T08:00');
    await section.getByRole('button', { name: 'Judge this period' }).click();
    await expect(section.getByText(/are left out\. The results were worked out anew/)).toBeVisible();
    const row = section.getByRole('row', { name: /10 Oct 2026/ });
    await expect(row).toContainText('hot meter out for calibration');
    await expect(row).toContainText('holds');
  });

  await test.step('the charts name who left it out and why, and so does their table', async () => {
    const chart = page.locator('#figure-duty');
    await expect(
      chart.getByText('left out by Demo administrator: hot meter out for calibration'),
    ).toBeVisible();
    await page.getByRole('link', { name: 'Fouling resistance: show as table' }).click();
    const table = page.getByRole('table', { name: /^Fouling resistance/ });
    await expect(
      table.getByText(/24 of 24 left out, most by a person; left out by Demo administrator/).first(),
    ).toBeVisible();
    const leftOut = page.getByRole('region', { name: 'Readings left out' });
    await expect(
      leftOut.getByRole('link', { name: /Show on the charts: left out by a person/ }),
    ).toBeVisible();
  });

  await test.step('withdrawn, it counts again and stays in the history', async () => {
    await section.getByRole('button', { name: /^Withdraw: left out/ }).click();
    const dialog = page.getByRole('dialog', { name: 'Withdraw a verdict' });
    expect(await violations(page)).toEqual([]);
    await dialog.getByLabel('Why it is withdrawn').fill('the meter was fine');
    await dialog.getByRole('button', { name: 'Withdraw', exact: true }).click();
    const row = section.getByRole('row', { name: /10 Oct 2026/ });
    await expect(row).toContainText(/withdrawn by Demo administrator, .*: the meter was fine/);
    await expect(page.locator('#figure-duty').getByText(/left out by Demo administrator/)).toHaveCount(0);
  });
});

test('a stretch of one reason is picked from the list and fills the form', async ({ page }) => {
  await page.goto('/units/AD-261?period=90d');
  await page.getByRole('link', { name: /^Leave out or count in: values missing/ }).click();
  await expect(page).toHaveURL(/stretch=/);
  const section = page.getByRole('region', { name: 'Judged by people' });
  await expect(section.getByText(/the stretch you picked/)).toBeVisible();
  await expect(section.getByLabel('From', { exact: true })).not.toHaveValue('');
});

const LOOKS = ['light', 'dark'].flatMap((theme) => [1440, 390].map((width) => ({ theme, width })));

test('a fall nobody explained is asked about, answered as a cleaning, and the answer withdrawn', async ({
  page,
  context,
  baseURL,
}) => {
  test.slow();
  const question = page.getByRole('form', { name: /^Was it cleaned around/ });

  for (const { theme, width } of LOOKS) {
    await test.step(`axe finds no fault in it: ${theme}, ${width} px`, async () => {
      await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
      await page.setViewportSize({ width, height: 900 });
      await page.goto(FALLEN);
      await expect(page.getByText(/The fouling fell by .* and no cleaning is recorded\./)).toBeVisible();
      await question.getByLabel('It was cleaned', { exact: true }).check();
      await expect(question.getByLabel('Back in service')).not.toHaveValue('');
      expect(await violations(page)).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
    });
  }

  await test.step('it is marked on the fouling chart by its own sign', async () => {
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.getByRole('link', { name: 'Show on the charts', exact: true }).click();
    await expect(
      page
        .locator('#figure-fouling')
        .getByText(/△ cleaned around/)
        .first(),
    ).toBeVisible();
  });

  const section = page.getByRole('region', { name: 'Judged by people' });
  const cleanings = page.getByRole('table', { name: /^Recorded cleanings/ });

  await test.step('answered, it is a cleaning like any other', async () => {
    const before = await cleanings.getByRole('row').count();
    await question.getByLabel('It was cleaned', { exact: true }).check();
    await question.getByLabel('Method').fill('plates brushed');
    await question.getByRole('button', { name: 'Answer' }).click();
    await expect(section.getByRole('row', { name: /was a cleaning/ })).toContainText('Demo administrator');
    await expect(question).toHaveCount(0);
    await expect(cleanings.getByRole('row')).toHaveCount(before + 1);
    await expect(cleanings.getByText(/plates brushed/)).toBeVisible();
  });

  await test.step('withdrawn, the question stands again', async () => {
    await section.getByRole('button', { name: /^Withdraw: was a cleaning/ }).click();
    const dialog = page.getByRole('dialog', { name: 'Withdraw an answer' });
    await dialog.getByLabel('Why it is withdrawn').fill('that was another unit');
    await dialog.getByRole('button', { name: 'Withdraw', exact: true }).click();
    await expect(section.getByRole('row', { name: /was a cleaning/ })).toContainText('that was another unit');
    await expect(question).toBeVisible();
    await expect(cleanings.getByText(/plates brushed/)).toHaveCount(0);
  });
});
