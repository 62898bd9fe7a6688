import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../support/browser';
import { PAGES_NOW } from '../support/pages-clock';

const PORT = 4310;
/** A database of its own for every run, made by the server's first command. */
const folder = join(tmpdir(), `cleanby-pages-${process.env.CLEANBY_PAGES_RUN ?? process.pid}`);
// Workers load this file too: they must see the folder of the process that started the server.
process.env.CLEANBY_PAGES_RUN ??= String(process.pid);

export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: '../../test-results',
  // One server and one database: tests that change something use units of their own.
  workers: 2,
  fullyParallel: true,
  forbidOnly: true,
  retries: 0,
  timeout: 60_000,
  expect: { timeout: 15_000 },
  reporter: [['list']],
  use: {
    baseURL: `http://127.0.0.1:${PORT}`,
    browserName: 'chromium',
    launchOptions: { executablePath: await chromiumPath(), args: CHROMIUM_ARGUMENTS },
    // Headless Chromium's own locale is one Intl refuses.
    locale: 'en-GB',
    timezoneId: 'Europe/Lisbon',
    viewport: { width: 1440, height: 900 },
    trace: 'retain-on-failure',
  },
  webServer: {
    command: `npx tsx tests/support/serve-pages.ts ${folder} ${PORT}`,
    cwd: join(import.meta.dirname, '../..'),
    url: `http://127.0.0.1:${PORT}/`,
    timeout: 180_000,
    reuseExistingServer: false,
    stdout: 'ignore',
    stderr: 'pipe',
    gracefulShutdown: { signal: 'SIGTERM', timeout: 5_000 },
    env: { CLEANBY_NOW: PAGES_NOW },
  },
});
