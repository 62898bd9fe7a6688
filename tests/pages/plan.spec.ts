import AxeBuilder from '@axe-core/playwright';
import { type APIRequestContext, expect, type Locator, type Page, test } from '@playwright/test';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { PAGES_NOW } from '../support/pages-clock';
import { readingsCsv } from '../support/readings-csv';

const DAY = 86_400_000;
/** A plan may take ten seconds, more on a busy machine. */
const SOLVED = { timeout: 40_000 };

/** Units of a site of its own, with half a year of readings. */
async function newSite(request: APIRequestContext, name: string, prefix: string) {
  const site = { name, timeZone: 'Europe/Lisbon', currency: 'EUR' };
  const end = Date.parse(PAGES_NOW);
  for (const [nth, plan] of makeHeldOutFleet(77, 3).plans.entries()) {
    const unit = {
      ...plan.unit,
      tag: `${prefix}-${nth + 1}`,
      energy: { effect: 'heating', price: { amount: 0.09, per: 'kW.h' }, efficiency: 0.85 } as const,
      cleaning: { cost: 900, duration: { value: 12, unit: 'h' }, crewHours: 16, method: 'hot wash' },
    };
    const saved = await request.post('/api/v1/units', { data: { site, unit } });
    expect(saved.ok(), await saved.text()).toBe(true);
    const { readings } = generateReadings(
      { ...plan, unit },
      { start: end - 180 * DAY, end, stepMs: 3_600_000, seed: nth + 1 },
    );
    const imported = await request.post('/api/v1/imports', {
      data: Buffer.from(readingsCsv(unit, readings)),
      headers: { 'Content-Type': 'text/csv' },
    });
    expect(imported.ok(), await imported.text()).toBe(true);
  }
}

const bars = (page: Page) => page.getByRole('button', { name: /^Cleaning of / });
const nameOf = async (bar: Locator) => (await bar.getAttribute('aria-label')) ?? '';
const draftLine = (page: Page) =>
  page
    .getByRole('status')
    .filter({ hasText: /solved|accepted|plan/i })
    .first();

async function solved(page: Page) {
  await expect(page.getByText(/cleanings? by \d/).first()).toBeVisible(SOLVED);
  await expect(page.getByRole('progressbar')).toHaveCount(0, SOLVED);
}

test('a site without a calendar asks for one; plan, drag, lock, solve the rest, accept, work list', async ({
  page,
  request,
}) => {
  test.setTimeout(240_000);
  await newSite(request, 'Plan walk', 'PW');

  await test.step('say when cleaning is possible', async () => {
    await page.goto('/plan?site=Plan+walk');
    await expect(page.getByRole('heading', { name: 'Say when cleaning is possible' })).toBeVisible();
    await page.getByRole('button', { name: 'Add an outage' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Spring stop');
    await page.getByLabel('Crew hours', { exact: true }).fill('60');
    await page.getByLabel('Crew hours a week outside outages').fill('20');
    await page.getByLabel('First day').fill('2027-03-28');
    await page.getByLabel('Last day').fill('2027-04-03');
    await page.getByLabel('from, empty: from midnight on').fill('01:30');
    await page.getByRole('button', { name: 'Save the calendar' }).click();
    await expect(page.getByText(/^The clocks change on that day/)).toBeVisible();
    await page.getByLabel('First day').fill('2027-03-01');
    await page.getByLabel('Last day').fill('2027-03-07');
    await page.getByLabel('from, empty: from midnight on').fill('06:00');
    await page.getByRole('button', { name: 'Save the calendar' }).click();
    await solved(page);
    await expect(page.getByText(/nothing clashes/).first()).toBeVisible();
    await expect(page.getByText(/can kill/)).toBeVisible();
    await expect(page.getByRole('row', { name: /^No cleaning at all/ })).toBeVisible();
  });

  await test.step('drag a cleaning: it snaps, and what that costs shows at once', async () => {
    const bar = bars(page).first();
    const before = await nameOf(bar);
    await bar.scrollIntoViewIfNeeded();
    const box = (await bar.boundingBox())!;
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.move(middle.x, middle.y);
    await page.mouse.down();
    await page.mouse.move(middle.x + 20, middle.y);
    await page.mouse.move(middle.x + 120, middle.y, { steps: 4 });
    await expect(page.locator('[data-place]').first()).toBeVisible();
    await page.mouse.up();
    await expect(page.locator('[data-place]')).toHaveCount(0);
    expect(await nameOf(bar)).not.toBe(before);
    await expect(page.getByText(/€ against the solved plan/)).toBeVisible();
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await nameOf(bars(page).first())).toBe(before);
  });

  let locked = '';
  await test.step('move it by keys, lock it, and solve the rest', async () => {
    const bar = bars(page).first();
    const before = await nameOf(bar);
    await bar.focus();
    await page.keyboard.press('ArrowRight');
    await expect(bars(page).first()).toBeFocused();
    expect(await nameOf(bar)).not.toBe(before);
    await page.keyboard.press('l');
    locked = await nameOf(bar);
    expect(locked).toMatch(/, locked$/);
    await page.getByRole('button', { name: 'Solve the rest (1 locked)' }).click();
    await expect(page.getByText('As solved')).toBeVisible(SOLVED);
    await expect(page.getByRole('button', { name: locked })).toBeVisible();
  });

  await test.step('without dragging: a place earlier or later, taken out, added, undone', async () => {
    const count = await bars(page).count();
    await page.getByRole('button', { name: locked }).click();
    const panel = page.getByRole('region', { name: /^Cleaning of PW-/ });
    await panel.getByRole('button', { name: 'A place later' }).click();
    await expect(page.getByRole('button', { name: locked })).toHaveCount(0);
    await panel.getByRole('button', { name: 'A place earlier' }).click();
    await expect(page.getByRole('button', { name: locked })).toHaveCount(1);
    await panel.getByLabel('Place').selectOption({ index: 0 });
    await panel.getByRole('button', { name: 'Take out' }).click();
    await expect(bars(page)).toHaveCount(count - 1);
    await page
      .getByRole('button', { name: /^Add a cleaning of PW-/ })
      .first()
      .click();
    await expect(bars(page)).toHaveCount(count);
    await page.getByRole('button', { name: 'Back to the solved plan' }).click();
    await expect(page.getByRole('button', { name: locked })).toHaveCount(1);
  });

  await test.step('added by a click in a row, and kept when the page is left', async () => {
    const count = await bars(page).count();
    await page.getByRole('button', { name: 'Add by click' }).click();
    const spot = page.getByRole('button', { name: /^Add a cleaning of PW-\d at a place/ }).first();
    const box = (await spot.boundingBox())!;
    await spot.click({ position: { x: box.width - 40, y: 4 } });
    await expect(bars(page)).toHaveCount(count + 1);
    await page.getByRole('button', { name: 'Stop adding' }).click();
    const names = await Promise.all((await bars(page).all()).map(nameOf));
    await page.goto('/plan/work');
    await page.goto('/plan?site=Plan+walk');
    await expect(page.getByText('Your changes are as you left them')).toBeVisible();
    expect(await Promise.all((await bars(page).all()).map(nameOf))).toEqual(names);
    await expect(page.getByRole('progressbar')).toHaveCount(0);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect(bars(page)).toHaveCount(count);
  });

  await test.step('the same as a table, and in the address', async () => {
    await page.getByRole('radio', { name: 'Table' }).click();
    await expect(page).toHaveURL(/view=table/);
    await expect(page.getByRole('columnheader', { name: /Must start before/ })).toBeVisible();
    await page.getByRole('radio', { name: 'Axis' }).click();
    await expect(bars(page).first()).toBeVisible();
  });

  await test.step('accept it under a name: dated work on the work list', async () => {
    const accept = page.getByRole('button', { name: /^Accept \d+ cleaning/ });
    await expect(page.getByText('as Demo administrator')).toBeVisible();
    await accept.click();
    await expect(page.getByText(/are dated work now/)).toBeVisible();
    await page.getByRole('link', { name: 'Go to the work list' }).click();
    await expect(page).toHaveURL(/\/plan\/work/);
    await expect(page.getByText(/PW-\d/).first()).toBeVisible();
    await page.goto('/plan?site=Plan+walk');
    await expect(page.getByText(/This is the plan accepted by Demo administrator/)).toBeVisible();
    await expect(draftLine(page)).toHaveText(/As accepted/);
    await expect(page.getByRole('button', { name: locked })).toBeVisible();
  });

  await test.step('another calendar drops changes that were made on the old one, and says so', async () => {
    await bars(page).first().focus();
    await page.keyboard.press('ArrowRight');
    await expect(page.getByText(/€ against the accepted plan/)).toBeVisible();
    await page.getByText('Calendar', { exact: true }).click();
    await page.getByLabel('Crew hours a week outside outages').fill('24');
    await page.getByRole('button', { name: 'Save the calendar' }).click();
    await expect(page.getByText('Your changes were dropped')).toBeVisible();
    await solved(page);
  });
});

test('making a plan shows that it runs and can be cancelled', async ({ page }) => {
  let isAsked = false;
  await page.route('**/api/v1/plan', () => {
    isAsked = true;
  });
  await page.goto('/plan?weeks=26&confidence=0.5');
  await expect(page.getByRole('progressbar', { name: /Making a plan/ })).toBeVisible();
  await expect.poll(() => isAsked).toBe(true);
  await page.getByRole('button', { name: 'Cancel' }).click();
  await expect(page.getByRole('progressbar')).toHaveCount(0);
  await expect(page.getByRole('button', { name: /Make a plan|Solve/ })).toBeEnabled();
});

test('an address that cannot be read shows the usual plan', async ({ page }) => {
  await page.route('**/api/v1/plan', () => {});
  await page.goto('/plan?weeks=soon&confidence=sure&view=wall');
  await expect(page.getByLabel('Ahead')).toHaveValue('52');
  await expect(page.getByLabel('Before the limit with')).toHaveValue('0.9');
});

for (const theme of ['light', 'dark']) {
  for (const width of [1440, 390]) {
    test(`axe finds no fault in the plan: ${theme}, ${width} px`, async ({ page, context, baseURL }) => {
      test.setTimeout(120_000);
      await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
      await page.setViewportSize({ width, height: 900 });
      await page.goto('/plan?weeks=26');
      await solved(page);
      await page.getByText('Calendar', { exact: true }).click();
      const first = width > 760 ? bars(page) : page.getByRole('button', { name: /^Change the cleaning of/ });
      await first.first().click();
      await expect(page.getByRole('region', { name: /^Cleaning of/ })).toBeVisible();
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
    });
  }
}
