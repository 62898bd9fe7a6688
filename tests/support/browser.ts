import { existsSync } from 'node:fs';
import sparticuz from '@sparticuz/chromium';

const INSTALLED = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** The Chromium of the tests: one that is installed, else the one npm brought; nothing is downloaded. */
export async function chromiumPath(): Promise<string> {
  return INSTALLED.find((path) => existsSync(path)) ?? (await sparticuz.executablePath());
}

/** Arguments under which either of them runs anywhere, as root and without a display too, and looks nothing up. */
export const CHROMIUM_ARGUMENTS = [
  '--no-sandbox',
  '--headless=shell',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--font-render-hinting=none',
];
