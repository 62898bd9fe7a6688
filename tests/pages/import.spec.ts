import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

const HOURS = 30;
const START = Date.parse('2019-03-01T00:00:00Z');

type Named = { name: string; description: string; unit: string; level: number };

/** Two units of the demonstration by the plant's own names, and what is none of our sensors. */
const PLANT: Named[] = [
  { name: 'U1_SC152_TI_HOT_IN', description: 'hot inlet', unit: 'degC', level: 35 },
  { name: 'U1_SC152_TI_HOT_OUT', description: 'hot outlet', unit: 'degC', level: 26 },
  { name: 'U1_SC152_FI_HOT', description: 'hot flow', unit: 'm3/h', level: 200 },
  { name: 'U1_LC172_TI_HOT_IN', description: 'hot inlet', unit: 'degC', level: 65 },
  { name: 'TI-77', description: 'LC-172 cold inlet temperature', unit: 'degC', level: 25 },
  { name: 'U1_LI_3', description: 'tank level', unit: '%', level: 55 },
];

/** A file with a row of descriptions and one of units above its readings. */
function plantFile(columns: Named[], prefix: string): { name: string; mimeType: string; buffer: Buffer } {
  const rows = Array.from({ length: HOURS }, (_, hour) => [
    new Date(START + hour * 3_600_000).toISOString(),
    ...columns.map(({ level }) => (level + Math.sin(hour / 4)).toFixed(2)),
  ]);
  const table = [
    ['time', ...columns.map(({ name }) => `${prefix}${name}`)],
    ['', ...columns.map(({ description }) => description)],
    ['', ...columns.map(({ unit }) => unit)],
    ...rows,
  ];
  const text = table.map((cells) => `${cells.join(',')}\n`).join('');
  return { name: `${prefix}plant.csv`, mimeType: 'text/csv', buffer: Buffer.from(text) };
}

async function choose(page: Page, file: ReturnType<typeof plantFile>): Promise<void> {
  await page.goto('/import', { waitUntil: 'networkidle' });
  await page.getByTestId('readings-file').setInputFiles(file);
}

const rowOf = (page: Page, name: string) => page.getByRole('group', { name, exact: true });

async function expectNoFaults(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(overflow).toBeLessThanOrEqual(0);
}

for (const { theme, width } of [
  { theme: 'light', width: 1440 },
  { theme: 'dark', width: 390 },
] as const) {
  test(`axe finds no fault in the mapping of a file, ${theme}, ${width} px`, async ({
    page,
    context,
    baseURL,
  }) => {
    await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
    await page.setViewportSize({ width, height: 900 });
    await choose(page, plantFile(PLANT, 'axe_'));
    await expect(rowOf(page, 'axe_U1_SC152_TI_HOT_IN')).toBeVisible();
    await expectNoFaults(page);
  });
}

test('a file by the plant’s own names is guessed, looked over, saved by name, read, and offered again', async ({
  page,
}) => {
  const file = plantFile(PLANT, 'walk_');
  await choose(page, file);
  const hotIn = rowOf(page, 'walk_U1_SC152_TI_HOT_IN');
  await expect(hotIn).toContainText('Guess: SC-152 hot inlet temperature');
  await expect(hotIn).toContainText('sure, 99 %');
  await expect(hotIn.getByLabel('Unit', { exact: true })).toHaveValue('');
  await expect(rowOf(page, 'walk_U1_LI_3')).toContainText('No guess');
  await page.getByRole('button', { name: /^Take all \d sure guesses$/ }).click();
  await expect(hotIn.getByLabel('Unit', { exact: true })).toHaveValue('SC-152');
  await expect(hotIn.getByLabel('Quantity')).toHaveValue('hotIn');
  const level = rowOf(page, 'walk_U1_LI_3');
  await level.getByLabel('Unit', { exact: true }).fill('SC-999');
  await expect(level).toContainText('there is no unit "SC-999"');
  await level.getByLabel('Skip').check();
  await expect(level).not.toContainText('there is no unit');
  await expect(page.getByRole('table', { name: /What the columns say of/ })).toContainText('walk_');
  await page.getByLabel('Save the mapping as').fill('Walked through');
  await page.getByRole('button', { name: 'Save and read the file' }).click();
  await expect(page.getByRole('heading', { name: 'The first rows as read' })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Import', exact: true })).toBeEnabled();
  await choose(page, file);
  await expect(page.getByText('This header fits the saved mapping “Walked through”')).toBeVisible();
  await page.getByRole('button', { name: 'Use “Walked through”' }).click();
  await expect(page.getByRole('heading', { name: 'The first rows as read' })).toBeVisible();
});

test('guesses are taken and columns walked through by keyboard', async ({ page }) => {
  await choose(page, plantFile(PLANT, 'keys_'));
  const first = rowOf(page, 'keys_U1_SC152_TI_HOT_IN');
  await first.getByLabel('Unit', { exact: true }).focus();
  await page.keyboard.press('Alt+Enter');
  await expect(first.getByLabel('Quantity')).toHaveValue('hotIn');
  await page.keyboard.press('Alt+ArrowDown');
  await expect(rowOf(page, 'keys_U1_SC152_TI_HOT_OUT').getByLabel('Unit', { exact: true })).toBeFocused();
});

test('a thousand columns stay usable: only those in sight are in the page, and filters narrow them', async ({
  page,
}) => {
  const many = Array.from({ length: 1000 }, (_, i) => ({ ...PLANT[5]!, name: `U1_LI_${i}` }));
  many[700] = { ...PLANT[0]!, name: 'U1_SC152_TI_HOT', description: 'temperature' };
  await choose(page, plantFile(many, 'many_'));
  await expect(page.getByText('1,000 columns: 0 chosen, 0 skipped, 1,000 open.')).toBeVisible();
  expect(await page.getByRole('group', { name: /^many_/ }).count()).toBeLessThan(60);
  await page.getByRole('radio', { name: 'doubtful 1' }).check();
  await expect(page.getByRole('group', { name: /^many_/ })).toHaveCount(1);
  await expect(rowOf(page, 'many_U1_SC152_TI_HOT')).toContainText(
    'nothing but the values says inlet or outlet',
  );
});

test('a saved mapping is changed and deleted, and an edit of an older state is refused', async ({
  page,
  request,
  baseURL,
}) => {
  const path = '/api/v1/mappings/Edited%20here';
  const headers = { origin: baseURL! };
  const mapping = { sensors: { 'TI-1': { tag: 'SC-152', sensor: 'hotIn', unit: 'Cel' }, 'TI-2': null } };
  const made = await request.put(path, { data: { mapping, revision: null }, headers });
  expect(made.ok()).toBe(true);
  await page.goto('/import/mappings/Edited%20here', { waitUntil: 'networkidle' });
  await expectNoFaults(page);
  const row = rowOf(page, 'TI-1');
  await row.getByLabel('Quantity').selectOption('coldIn');
  const other = await request.put(path, { data: { mapping, revision: 0 }, headers });
  expect(other.ok()).toBe(true);
  await page.getByRole('button', { name: 'Save the mapping' }).click();
  await expect(page.getByText('was changed in the meantime')).toBeVisible();
  await page.reload({ waitUntil: 'networkidle' });
  await rowOf(page, 'TI-1').getByLabel('Quantity').selectOption('coldIn');
  await page.getByRole('button', { name: 'Save the mapping' }).click();
  await expect(page.getByText(/revision 2/).first()).toBeVisible();
  await page
    .getByRole('button', { name: /^Delete/ })
    .first()
    .click();
  await page.getByRole('button', { name: 'Delete it' }).click();
  await expect(page).toHaveURL(/\/import/);
  await expect(page.getByRole('link', { name: 'Edited here' })).toHaveCount(0);
});

test('a file whose header says it all is taken without a mapping', async ({ page }) => {
  const text = `tag,time,hot_in[Cel]\nSC-152,2019-05-01T00:00:00Z,35\n`;
  await choose(page, { name: 'own.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  await expect(page.getByText('Readings of SC-152', { exact: false })).toBeVisible();
  await expect(page.getByText('Which unit and quantity does each name stand for?')).toHaveCount(0);
});
