import { type Browser, chromium, type Page } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../support/browser';
import { median } from './measure';
import type { ServedPlant } from './served-plant';

/** What a person sees of a page: when the largest picture stands, and frames while it is scrolled to its end [ms]. */
export type Looks = {
  largestPicture: number;
  longestFrame: number;
  medianFrame: number;
  /** Share of frames in which a row in sight had not come yet [-]. */
  blankShare: number;
  scrolled: number;
};

/** So many pixels a frame: some twenty rows in ten frames, as fast as anybody reads. */
const PIXELS_A_FRAME = 90;
const MOST_FRAMES = 1_200;

/** Looks at a page with a window of a laptop, each time anew. */
export async function lookAt(plant: ServedPlant, path: string, runs: number): Promise<Looks> {
  const browser = await chromium.launch({ executablePath: await chromiumPath(), args: CHROMIUM_ARGUMENTS });
  try {
    const seen: Looks[] = [];
    for (let run = 0; run < runs; run++) seen.push(await lookOnce(browser, plant, path));
    const middle = (of: (look: Looks) => number) => median(seen.map(of));
    return {
      largestPicture: middle((look) => look.largestPicture),
      longestFrame: middle((look) => look.longestFrame),
      medianFrame: middle((look) => look.medianFrame),
      blankShare: middle((look) => look.blankShare),
      scrolled: middle((look) => look.scrolled),
    };
  } finally {
    await browser.close();
  }
}

async function lookOnce(browser: Browser, plant: ServedPlant, path: string): Promise<Looks> {
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    extraHTTPHeaders: plant.person,
  });
  try {
    const page = await context.newPage();
    // The loader of this file wraps inner functions in a helper that a page does not have.
    await page.addInitScript('globalThis.__name = (act) => act');
    await page.goto(plant.address + path, { waitUntil: 'networkidle' });
    return { largestPicture: await largestPicture(page), ...(await scroll(page)) };
  } finally {
    await context.close();
  }
}

function largestPicture(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        new PerformanceObserver((list) => resolve(list.getEntries().at(-1)!.startTime)).observe({
          type: 'largest-contentful-paint',
          buffered: true,
        });
      }),
  );
}

/** Scrolls by the frame and notes how long each took. */
function scroll(page: Page): Promise<Omit<Looks, 'largestPicture'>> {
  return page.evaluate(
    ({ step, most }) =>
      new Promise((resolve) => {
        const frames: number[] = [];
        let blank = 0;
        let last = performance.now();
        const isBlank = () =>
          [0.3, 0.6, 0.9].some((share) => {
            const at = document.elementFromPoint(innerWidth / 2, innerHeight * share);
            return at?.closest('li')?.getAttribute('aria-hidden') === 'true';
          });
        const next = (now: number) => {
          frames.push(now - last);
          last = now;
          if (isBlank()) blank++;
          const before = scrollY;
          scrollBy(0, step);
          if (frames.length < most && scrollY !== before) return requestAnimationFrame(next);
          const sorted = frames.slice(1).sort((a, b) => a - b);
          resolve({
            longestFrame: sorted.at(-1)!,
            medianFrame: sorted[sorted.length >> 1]!,
            blankShare: blank / frames.length,
            scrolled: scrollY,
          });
        };
        requestAnimationFrame(next);
      }),
    { step: PIXELS_A_FRAME, most: MOST_FRAMES },
  );
}
