import AxeBuilder from '@axe-core/playwright';
import { expect, test } from '@playwright/test';
import { putCell, rawSheets, rawWorkbook } from '../support/edited-sheet';
import { plainUnit } from '../support/units';

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
/** A unit of this test's own: others run at the same time. */
const TAG = 'SHEET-1';

test('from the workbook with mistakes to registered units, by keyboard', async ({ page, request }) => {
  const site = { name: 'Sheet site', timeZone: 'Europe/Lisbon', currency: 'EUR' };
  expect((await request.post('/api/v1/units', { data: { site, unit: plainUnit(TAG) } })).ok()).toBe(true);

  await page.goto('/new-unit');
  await page.getByRole('link', { name: 'Many units by spreadsheet' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Units by spreadsheet' })).toBeVisible();

  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'The fleet as it is (XLSX)' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('cleanby-fleet.xlsx');
  const response = await request.get('/api/v1/fleet?format=xlsx');
  const sheets = await rawSheets(await response.body());
  // Only its own row: the others' units are theirs to change.
  const units = sheets[0]!.data;
  units.splice(4, units.length, ...units.slice(4).filter(([tag]) => tag === TAG));
  const send = async () => {
    const buffer = Buffer.from(await rawWorkbook(sheets.slice(0, 1)));
    await page.getByTestId('fleet-sheet').setInputFiles({ name: 'fleet.xlsx', mimeType: XLSX, buffer });
  };

  await test.step('mistakes are named cell by cell, and nothing can be registered', async () => {
    putCell(sheets, ['Units', TAG, 'Area'], '25 acres');
    putCell(sheets, ['Units', TAG, 'Hot fluid'], 'gravel');
    await send();
    await expect(page.getByText('2 cells to mend first')).toBeVisible();
    const table = page.getByRole('table', { name: 'Cells to mend' });
    await expect(table.getByRole('row')).toHaveCount(3);
    await expect(table.getByRole('rowheader', { name: 'Units!M5' })).toBeVisible();
    await expect(table).toContainText('"acres" does not measure this; use for example m², ft²');
    await expect(page.getByRole('button', { name: /^Register/ })).toHaveCount(0);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
  });

  await test.step('mended, it shows what would change and is registered in one go', async () => {
    putCell(sheets, ['Units', TAG, 'Area'], 25);
    putCell(sheets, ['Units', TAG, 'Hot fluid'], 'water');
    await send();
    await expect(page.getByText('Area: 20 m² → 25 m²')).toBeVisible();
    await page.getByRole('button', { name: 'Choose again' }).focus();
    await page.keyboard.press('Tab');
    await expect(page.getByRole('button', { name: 'Register 1 unit' })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(page.getByText('1 unit updated.')).toBeVisible({ timeout: 40_000 });
    await expect(page.getByRole('link', { name: 'import their readings' })).toHaveAttribute(
      'href',
      '/import',
    );
  });

  await test.step('sent once more, nothing differs; edited from the old version, it is a conflict', async () => {
    await send();
    await expect(page.getByText('There is nothing to register.')).toBeVisible();
    putCell(sheets, ['Units', TAG, 'Area'], 30);
    await send();
    await expect(page.getByText(`somebody has changed ${TAG} since`)).toBeVisible();
  });
});
