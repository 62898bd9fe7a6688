import AxeBuilder from '@axe-core/playwright';
import { expect, test } from '@playwright/test';

const PAGES = [
  ['fleet', '/'],
  ['fleet as a table', '/?view=table'],
  ['a unit over its limit', '/units/SC-151'],
  ['the working of a unit', '/units/SC-152?how=1'],
  ['a unit without data', '/units/AD-261'],
  ['energy and money', '/energy'],
  ['what a month cost', '/energy/month'],
  ['import', '/import'],
  ['add a unit', '/new-unit'],
  ['edit a unit', '/units/SC-152/setup'],
  ['the clean reference of a unit', '/units/SC-152/reference?method=two-films'],
] as const;

const LOOKS = [
  { theme: 'light', width: 1440 },
  { theme: 'dark', width: 1440 },
  { theme: 'light', width: 390 },
  { theme: 'dark', width: 390 },
] as const;

for (const { theme, width } of LOOKS) {
  for (const [name, address] of PAGES) {
    test(`axe finds no fault: ${name}, ${theme}, ${width} px`, async ({ page, context, baseURL }) => {
      await context.addCookies([{ name: 'theme', value: theme, url: baseURL! }]);
      const messages: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error') messages.push(message.text());
      });
      await page.setViewportSize({ width, height: 900 });
      await page.goto(address, { waitUntil: 'networkidle' });
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
      expect(messages).toEqual([]);
      // Nothing reaches beyond the page's width but what scrolls within its own frame.
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
    });
  }
}
