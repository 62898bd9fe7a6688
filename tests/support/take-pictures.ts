import { mkdir } from 'node:fs/promises';
import { chromium } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from './browser';

// npx tsx tests/support/take-pictures.ts ADDRESS: the pictures of the README, from a running demo.
const address = process.argv[2];
if (address === undefined)
  throw new Error('give the address of a running demo, such as http://127.0.0.1:4000');
const FOLDER = 'tests/pictures';
const PICTURES = [
  { name: 'fleet', path: '/' },
  { name: 'unit', path: '/units/SC-152' },
] as const;

await mkdir(FOLDER, { recursive: true });
const browser = await chromium.launch({ executablePath: await chromiumPath(), args: CHROMIUM_ARGUMENTS });
for (const theme of ['light', 'dark']) {
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    locale: 'en-GB',
    timezoneId: 'Europe/Lisbon',
  });
  await context.addCookies([{ name: 'theme', value: theme, url: address }]);
  const door = await context.newPage();
  await door.goto(`${address}/sign-in`);
  await door.getByRole('button', { name: 'Demo engineer' }).click();
  await door.getByRole('button', { name: 'Sign out' }).waitFor();
  for (const { name, path } of PICTURES) {
    const page = await context.newPage();
    await page.goto(address + path, { waitUntil: 'networkidle' });
    await page.screenshot({ path: `${FOLDER}/${name}-${theme}.png` });
    await page.close();
  }
  await context.close();
}
await browser.close();
