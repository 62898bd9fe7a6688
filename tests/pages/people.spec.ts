import AxeBuilder from '@axe-core/playwright';
import { type Browser, type BrowserContext, expect, type Page, test } from '@playwright/test';
import { EMPTY_ADDRESS } from '../support/empty-server';

// These tests begin where nobody has an account, on a server of their own; each goes on from the one before.
const NOBODY = { cookies: [], origins: [] };
test.use({ baseURL: EMPTY_ADDRESS, storageState: NOBODY });
test.describe.configure({ mode: 'serial' });

const PASSWORD = 'seven slow kettles of brine';
const ADMINISTRATOR = { name: 'Ada Lindqvist', email: 'ada@plant.example' };
const VIEWER = { name: 'Victor Ohm', email: 'victor@plant.example' };

let administrator: BrowserContext;
let link = '';

test.beforeAll(async ({ browser }) => {
  administrator = await newContext(browser);
});
test.afterAll(() => administrator.close());

function newContext(browser: Browser): Promise<BrowserContext> {
  return browser.newContext({ baseURL: EMPTY_ADDRESS, locale: 'en-GB', storageState: NOBODY });
}

async function signIn(page: Page, email: string, password = PASSWORD): Promise<void> {
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password', { exact: true }).fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
}

const isSignedInAs = (page: Page, name: string) =>
  expect(page.getByRole('link', { name, exact: true })).toBeVisible();

/** Light and dark, wide and narrow: no fault that axe finds, nothing wider than the page. */
async function looksRight(page: Page): Promise<void> {
  for (const theme of ['light', 'dark']) {
    for (const width of [1440, 390]) {
      await page.setViewportSize({ width, height: 900 });
      await page.evaluate((name) => {
        document.documentElement.dataset.theme = name;
      }, theme);
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      const found = violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`);
      expect(found, `${page.url()} ${theme} ${width}`).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow, `${page.url()} ${width}`).toBeLessThanOrEqual(0);
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
}

test('the first run: every page leads to the first account, which is made once', async () => {
  const page = await administrator.newPage();
  for (const address of ['/', '/plan', '/people', '/sign-in', '/units/X-1']) {
    await page.goto(address);
    await expect(page).toHaveURL('/first-run');
  }
  await looksRight(page);
  await page.getByLabel('Your name').fill(ADMINISTRATOR.name);
  await page.getByLabel('E-mail').fill(ADMINISTRATOR.email);
  await page.getByLabel('Password', { exact: true }).fill('ada@plant.example');
  await page.getByRole('button', { name: 'Make the account' }).click();
  await expect(page.getByText(/mostly made of your name/)).toBeVisible();
  await expect(page.getByLabel('E-mail')).toHaveValue(ADMINISTRATOR.email);
  await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
  await page.getByRole('button', { name: 'Show' }).click();
  await expect(page.getByLabel('Password', { exact: true })).toHaveAttribute('type', 'text');
  await page.getByRole('button', { name: 'Make the account' }).click();
  await isSignedInAs(page, ADMINISTRATOR.name);
  // The fleet is empty and says how to begin.
  await expect(page.getByRole('heading', { name: 'No units yet' })).toBeVisible();
  await expect(page.getByRole('main').getByRole('link', { name: 'Add a unit' })).toBeVisible();
  await page.goto('/first-run');
  await expect(page).toHaveURL('/');
  await page.close();
});

test('inviting somebody gives a link to send', async () => {
  const page = await administrator.newPage();
  await page.goto('/people');
  await page.getByLabel('E-mail').fill(ADMINISTRATOR.email);
  await page.getByLabel('Name', { exact: true }).fill('Ada again');
  await page.getByRole('button', { name: 'Invite' }).click();
  await expect(page.getByText('change the role of the account that is there')).toBeVisible();
  await page.getByLabel('E-mail').fill(VIEWER.email);
  await page.getByLabel('Name', { exact: true }).fill('V. Ohm');
  await page.getByLabel('Role', { exact: true }).selectOption('viewer');
  await page.getByRole('button', { name: 'Invite' }).click();
  const code = page.getByRole('main').locator('code').filter({ hasText: '/invitation#' });
  await expect(code).toBeVisible();
  link = (await code.textContent()) ?? '';
  expect(link.startsWith(`${EMPTY_ADDRESS}/invitation#`)).toBe(true);
  await expect(page.getByRole('rowheader', { name: VIEWER.email })).toBeVisible();
  await looksRight(page);
  await page.close();
});

test('the invited person makes the account, once, and comes in as what was offered', async ({
  page,
  browser,
}) => {
  await page.goto(link);
  await expect(page.getByText(`${ADMINISTRATOR.name} invites you as viewer`)).toBeVisible();
  await expect(page.getByLabel('E-mail')).toHaveValue(VIEWER.email);
  await looksRight(page);
  await page.getByLabel('Your name').fill(VIEWER.name);
  await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
  await page.getByRole('button', { name: 'Make my account' }).click();
  await isSignedInAs(page, VIEWER.name);
  const again = await newContext(browser);
  const second = await again.newPage();
  await second.goto(link);
  await expect(second.getByRole('heading', { name: 'This invitation no longer holds' })).toBeVisible();
  await expect(second.getByText(/administrator who sent it for a new one/)).toBeVisible();
  await looksRight(second);
  await second.getByRole('main').getByRole('link', { name: 'Sign in' }).click();
  await expect(second).toHaveURL('/sign-in');
  await again.close();
});

test('signing in leads back to the page asked for; a viewer is offered what a viewer may', async ({
  page,
}) => {
  await page.goto('/energy?units=us');
  await expect(page).toHaveURL(/\/sign-in\?to=/);
  await looksRight(page);
  await signIn(page, VIEWER.email, 'not the password');
  await expect(page.getByRole('alert').filter({ hasText: 'No account has this address' })).toBeVisible();
  await expect(page.getByLabel('Password', { exact: true })).toBeFocused();
  await signIn(page, VIEWER.email);
  await expect(page).toHaveURL('/energy?units=us');
  const places = page.getByRole('navigation', { name: 'Main' });
  await expect(places.getByRole('link', { name: 'Plan' })).toBeVisible();
  for (const name of ['Import', 'Add a unit', 'People']) {
    await expect(places.getByRole('link', { name, exact: true })).toHaveCount(0);
  }
  const refused = await page.goto('/people');
  expect(refused?.status()).toBe(403);
  await expect(page.getByText('It is for those who may invite people and give roles')).toBeVisible();
  await looksRight(page);
});

test('the account page: name, password, and ending other sessions', async ({ page, browser }) => {
  await page.goto('/account');
  await signIn(page, VIEWER.email);
  await expect(page.getByRole('heading', { name: 'Your account' })).toBeVisible();
  await looksRight(page);
  const elsewhere = await newContext(browser);
  const other = await elsewhere.newPage();
  await other.goto('/account');
  await signIn(other, VIEWER.email);
  await expect(other.getByRole('heading', { name: 'Your account' })).toBeVisible();
  await page.reload();
  await page.getByRole('button', { name: 'Sign out everywhere else' }).click();
  await expect(page.getByRole('button', { name: 'Sign out everywhere else' })).toHaveCount(0);
  await other.goto('/account');
  await expect(other).toHaveURL(/\/sign-in/);
  await elsewhere.close();
  await page.getByLabel('Password now').fill(PASSWORD);
  await page.getByLabel('New password').fill('short');
  await page.getByRole('button', { name: 'Change the password' }).click();
  await expect(page.getByText(/at least 15 characters long/)).toBeVisible();
  await page.getByLabel('Password now').fill(PASSWORD);
  await page.getByLabel('New password').fill('eight slow kettles of brine');
  await page.getByRole('button', { name: 'Change the password' }).click();
  await expect(page.getByText('Every other browser is signed out')).toBeVisible();
  await page.getByRole('button', { name: 'Sign out', exact: true }).click();
  await expect(page).toHaveURL('/sign-in');
  await page.goto('/account');
  await signIn(page, VIEWER.email, 'eight slow kettles of brine');
  await isSignedInAs(page, VIEWER.name);
});

test('another role counts at once; two who change the same account are told of each other', async ({
  page,
}) => {
  await page.goto('/');
  await signIn(page, VIEWER.email, 'eight slow kettles of brine');
  await isSignedInAs(page, VIEWER.name);
  const [one, two] = [await administrator.newPage(), await administrator.newPage()];
  await one.goto('/people');
  await two.goto('/people');
  await one.getByLabel(`Role of ${VIEWER.name}`).selectOption('engineer');
  await one.getByRole('button', { name: `Give role to ${VIEWER.name}` }).click();
  await expect(one.getByText(`${VIEWER.name} is now engineer.`)).toBeVisible();
  await two.getByRole('button', { name: `Disable ${VIEWER.name}` }).click();
  await expect(two.getByText(/has changed Victor Ohm in the meantime: now engineer/)).toBeVisible();
  // The only administrator stays one: neither role nor access is offered, and the row says why.
  await expect(two.getByLabel(`Role of ${ADMINISTRATOR.name}`)).toBeDisabled();
  await expect(two.getByRole('button', { name: `Disable ${ADMINISTRATOR.name}` })).toBeDisabled();
  await expect(two.getByText('The only administrator: make somebody else one')).toBeVisible();
  await expect(two.getByRole('button', { name: `End sessions ${VIEWER.name}` })).toBeEnabled();
  await page.goto('/');
  await expect(page).toHaveURL(/\/sign-in/);
  await signIn(page, VIEWER.email, 'eight slow kettles of brine');
  await expect(
    page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Import' }),
  ).toBeVisible();
  await Promise.all([one.close(), two.close()]);
});

test('by keyboard alone: sign in, and the password need not be retyped to be seen', async ({ page }) => {
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').focus();
  await page.keyboard.type(ADMINISTRATOR.email);
  await page.keyboard.press('Tab');
  await page.keyboard.type(PASSWORD);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  await expect(page.getByLabel('Password', { exact: true })).toHaveAttribute('type', 'text');
  await expect(page.getByLabel('Password', { exact: true })).toHaveValue(PASSWORD);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await isSignedInAs(page, ADMINISTRATOR.name);
});
