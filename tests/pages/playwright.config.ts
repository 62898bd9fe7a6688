import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../support/browser';
import { EMPTY_ADDRESS, EMPTY_PORT } from '../support/empty-server';
import { PAGES_NOW } from '../support/pages-clock';
import { signedInState } from '../support/signed-in-state';

const PORT = 4310;
const ADDRESS = `http://127.0.0.1:${PORT}`;
/** A database of its own for every run, made by the server's first command. */
const folder = join(tmpdir(), `cleanby-pages-${process.env.CLEANBY_PAGES_RUN ?? process.pid}`);
// Workers load this file too: they must see the folder of the process that started the server.
process.env.CLEANBY_PAGES_RUN ??= String(process.pid);

const SERVER = {
  cwd: join(import.meta.dirname, '../..'),
  timeout: 180_000,
  reuseExistingServer: false,
  stdout: 'ignore',
  stderr: 'pipe',
  gracefulShutdown: { signal: 'SIGTERM', timeout: 5_000 },
} as const;

export default defineConfig({
  testDir: '.',
  globalSetup: './sign-in-once.ts',
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
    baseURL: ADDRESS,
    // Tests that need nobody or somebody else signed in say so.
    storageState: signedInState(),
    browserName: 'chromium',
    launchOptions: { executablePath: await chromiumPath(), args: CHROMIUM_ARGUMENTS },
    // Headless Chromium's own locale is one Intl refuses.
    locale: 'en-GB',
    timezoneId: 'Europe/Lisbon',
    viewport: { width: 1440, height: 900 },
    trace: 'retain-on-failure',
  },
  webServer: [
    {
      ...SERVER,
      command: `npx tsx tests/support/serve-pages.ts ${folder} ${PORT}`,
      url: `${ADDRESS}/`,
      env: { CLEANBY_NOW: PAGES_NOW },
    },
    {
      ...SERVER,
      command: `npx tsx tests/support/serve-empty.ts ${folder}-empty ${EMPTY_PORT}`,
      url: `${EMPTY_ADDRESS}/`,
    },
  ],
});
