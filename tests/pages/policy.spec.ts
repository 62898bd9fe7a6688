import { type Browser, expect, test } from '@playwright/test';
import { ROLES } from '@/lib/auth/rights';
import { pageAddress } from '../security/page-addresses';
import { RoleTable } from '../security/role-table';
import { pagePaths } from '../security/walk-router';

test.use({ storageState: { cookies: [], origins: [] } });

/** The first run has been: whoever opens its page is led to sign in. */
const LED_OUT = '/first-run';

/** A browser in which somebody of that role is signed in, or nobody. */
async function browserOf(browser: Browser, role: string, baseURL: string) {
  const context = await browser.newContext({ baseURL, locale: 'en-GB', storageState: undefined });
  if (role === 'nobody') return context;
  const page = await context.newPage();
  await page.goto('/sign-in');
  await page.getByRole('button', { name: `Demo ${role}` }).click();
  await page.getByRole('button', { name: 'Sign out' }).waitFor();
  await page.close();
  return context;
}

for (const role of ['nobody', ...ROLES]) {
  test(`every page answers ${role} as the table says`, async ({ browser, baseURL }) => {
    const context = await browserOf(browser, role, baseURL!);
    const table = new RoleTable();
    const wrong: string[] = [];
    for (const path of pagePaths()) {
      const answer = await context.request.get(pageAddress(path), { maxRedirects: 0 });
      const expected = table.answersTo(path, role, false)[0]!;
      const given = path === LED_OUT ? 'in' : verdictOf(answer.status(), answer.headers().location ?? '');
      if (given !== expected) wrong.push(`${path}: ${given} (${answer.status()}), not ${expected}`);
    }
    expect(wrong).toEqual([]);
    await context.close();
  });
}

function verdictOf(status: number, location: string): string {
  if (/^\/sign-in(\?|$)/.test(location)) return '401';
  return status === 403 || status >= 500 ? `${status}` : 'in';
}
