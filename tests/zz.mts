import { chromium } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '/work/main/tests/support/browser';
const [tag, query = '', name = tag, looks = 'light-1440,dark-1440,light-390,dark-390'] = process.argv.slice(2);
const address = 'http://localhost:4455';
const browser = await chromium.launch({ executablePath: await chromiumPath(), args: CHROMIUM_ARGUMENTS });
for (const look of looks.split(',')) {
  const [theme, width] = look.split('-');
  const context = await browser.newContext({ viewport: { width: Number(width), height: 900 }, locale: 'en-GB', timezoneId: 'Europe/Lisbon' });
  await context.addCookies([{ name: 'theme', value: theme, url: address }]);
  const page = await context.newPage();
  page.on('console', (m) => { if (m.type() === 'error') console.log(look, m.text().slice(0, 600)); });
  await page.goto(`${address}/units/${tag}${query}`, { waitUntil: 'networkidle', timeout: 120000 });
  await page.waitForSelector('.recharts-surface .recharts-yAxis text', { timeout: 60000 }).catch(() => console.log('no chart'));
  await page.waitForTimeout(500);
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  const step = Number(width) < 600 ? 2400 : 1500;
  for (let y = 0, k = 0; y < height; y += step, k++)
    await page.screenshot({ path: `/tmp/judging-${name}-${look}-${k}.png`, fullPage: true, clip: { x: 0, y, width: Number(width), height: Math.min(step, height - y) } });
  console.log(look, await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth));
  await context.close();
}
await browser.close();
