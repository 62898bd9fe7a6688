import { chromium, type FullConfig } from '@playwright/test';
import { signedInState } from '../support/signed-in-state';

/** Signs in as the demonstration's administrator by its one click, and keeps the cookies for every test. */
export default async function signInOnce({ projects }: FullConfig): Promise<void> {
  const { baseURL, launchOptions, locale } = projects[0]!.use;
  const browser = await chromium.launch(launchOptions);
  const page = await browser.newPage({ baseURL, locale });
  await page.goto('/sign-in');
  await page.getByRole('button', { name: 'Demo administrator' }).click();
  await page.getByRole('button', { name: 'Sign out' }).waitFor();
  await page.context().storageState({ path: signedInState() });
  await browser.close();
}
