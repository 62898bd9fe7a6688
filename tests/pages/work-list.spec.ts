import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import ICAL from 'ical.js';
import { workListSchema } from '@/lib/contract/planned';

/** How a page begins in the page tree of a PDF, which Chromium leaves uncompressed. */
const PDF_PAGE = /\/Type\s*\/Page\b(?!s)/g;
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);

const workOf = async (page: Page) =>
  workListSchema.parse(await (await page.request.get('/api/v1/plan/work')).json()).work;

/** Work that no other test touches: the power station's, the last of it; a plan of another test stands beside it. */
const DEMO_SITE = 'Kaldholm Heat and Power';

test('work of the accepted plan is moved, called off, and done with a photograph', async ({ page }) => {
  await page.goto('/plan/work');
  await expect(page.getByRole('heading', { name: 'Work list' })).toBeVisible();
  await expect(page.getByText(/^Plan \d+ of .+, accepted .+ by Planner/)).toBeVisible();
  await expect(page.getByText(/can kill/).first()).toBeVisible();
  const open = (await workOf(page)).filter(({ state, site }) => state === 'open' && site === DEMO_SITE);
  const lastOfUnits = open.filter(
    ({ tag }, index) => open.findLastIndex((other) => other.tag === tag) === index,
  );
  // The first that its limit asks for, so that moving it to the end of the plan makes it late; not one bound to outages.
  const moved = lastOfUnits.find(({ reason, outage }) => reason === 'limit' && outage === null);
  const [dropped, done] = lastOfUnits.filter(({ tag }) => tag !== moved?.tag).slice(-2);
  const rowOf = (tag: string, region: RegExp) =>
    page
      .getByRole('region', { name: region })
      .getByRole('row')
      .filter({ has: page.getByRole('link', { name: tag, exact: true }) });

  await rowOf(moved!.tag, /^To be done/)
    .getByRole('button', { name: /^Move/ })
    .last()
    .click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Out of service from').fill('2027-11-15T07:00');
  await dialog.getByLabel('Why it is moved').fill('crane not free');
  await dialog.getByRole('button', { name: 'Move', exact: true }).click();
  await expect(dialog.getByRole('alert')).toContainText('after the day before which it must be cleaned');
  await dialog.getByRole('checkbox', { name: /^Move it there although it comes \d+ days after/ }).check();
  await dialog.getByRole('button', { name: 'Move', exact: true }).click();
  await expect(dialog).toBeHidden();
  const movedRow = page.getByRole('row').filter({ hasText: '15 Nov 2027, 07:00' });
  await movedRow.getByText(/^History/).click();
  await expect(movedRow.getByText(/moved by Demo administrator from .*: crane not free/)).toBeVisible();

  await rowOf(dropped!.tag, /^To be done/)
    .getByRole('button', { name: /^Call off/ })
    .last()
    .click();
  await dialog.getByLabel('Why it is called off').fill('unit is replaced');
  await dialog.getByRole('button', { name: 'Call off', exact: true }).click();
  const off = page.getByRole('region', { name: /^Called off/ }).first();
  await expect(off.getByText(/called off by Demo administrator: unit is replaced/)).toBeVisible();

  await rowOf(done!.tag, /^To be done/)
    .getByRole('button', { name: /^Mark done/ })
    .last()
    .click();
  await dialog.getByLabel('Back in service').fill('2099-01-01T08:00');
  await dialog.getByRole('button', { name: 'Mark done', exact: true }).click();
  await expect(dialog.getByRole('alert')).toContainText('future');
  await dialog.getByLabel('Back in service').fill('2026-11-25T09:30');
  await dialog.getByLabel('Cost').fill('1234');
  await dialog.getByLabel('Photographs or reports').setInputFiles({
    name: 'tube sheet.png',
    mimeType: 'image/png',
    buffer: PNG,
  });
  await dialog.getByRole('button', { name: 'Mark done', exact: true }).click();
  await expect(dialog).toBeHidden({ timeout: 60_000 });
  const doneRow = rowOf(done!.tag, /^Done/);
  await expect(doneRow.getByText('25 Nov 2026, 09:30')).toBeVisible();
  await expect(doneRow.getByText(/too early to tell: needs figures of 3 days/)).toBeVisible();
  const photograph = doneRow.getByRole('link', { name: 'tube sheet.png' });
  const download = await page.request.get((await photograph.getAttribute('href'))!);
  expect(await download.body()).toEqual(PNG);

  // The page of the unit lists the cleaning with what was kept.
  await page.goto(`/units/${done!.tag}`);
  await expect(page.getByRole('link', { name: 'tube sheet.png' })).toBeVisible();
});

test('the calendar of the work list is read by an independent parser', async ({ page }) => {
  await page.goto('/plan/work');
  const href = await page.getByRole('link', { name: /^Calendar/ }).getAttribute('href');
  const calendar = new ICAL.Component(ICAL.parse(await (await page.request.get(href!)).text()));
  const uids = calendar.getAllSubcomponents('vevent').map((event) => event.getFirstPropertyValue('uid'));
  const known = (await workOf(page)).map(({ calendarId }) => calendarId);
  expect(uids.toSorted()).toEqual(known.toSorted());
});

test('sheets of the work list fit A4 and Letter, with cautions and boxes to sign for each unit', async ({
  page,
}) => {
  await page.goto('/plan/work');
  await page.getByRole('link', { name: 'Sheets to print' }).click();
  const sheets = page.getByRole('region', { name: /^Clean [A-Z]/ });
  await expect(sheets.first()).toBeVisible();
  const count = await sheets.count();
  for (const words of [/can kill/, 'Isolated and locked out', 'Chemical compatibility', 'Hot side']) {
    await expect(sheets.getByText(words)).toHaveCount(count);
  }
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = await page.pdf({ format });
    const pages = pdf.toString('latin1').match(PDF_PAGE)?.length ?? 0;
    expect(pages).toBeGreaterThan(1);
    expect(pages).toBeLessThanOrEqual(count + 2);
  }
});

for (const { theme, width } of [
  { theme: 'light', width: 1440 },
  { theme: 'dark', width: 390 },
]) {
  for (const address of ['/plan/work', '/plan/work?by=outage', '/plan/work/print']) {
    test(`axe finds no fault: ${address}, ${theme}, ${width} px`, async ({ page, context, baseURL }) => {
      await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
      await page.setViewportSize({ width, height: 900 });
      await page.goto(address, { waitUntil: 'networkidle' });
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
    });
  }
}
