import { chromium, type Page } from '@playwright/test';
import { DAY_MS, isoDay } from '@/lib/time/calendar-day';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../support/browser';
import { type BenchPiece, type BenchRow, median, timed } from './measure';
import { type ServedPlant, servePlant } from './served-plant';
import { type TenYearUnit, tenYearUnit } from './ten-year-unit';

/** What is asked of a look closer: of the server, and from the click to the drawn picture; and of the first picture [ms]. */
const MOST_SERVER = 100;
const MOST_CLICK = 200;
const MOST_FIRST = 1000;

/** Zoomed to so many days up to the last one. */
const SPANS: [name: string, days: number | null][] = [
  ['ten years', null],
  ['one year', 365],
  ['one month', 30],
  ['one day', 1],
];

export const unitPage: BenchPiece = {
  name: 'unit-page',
  about: 'the page of a unit with ten years of hourly readings: server, picture, looking closer',
  run: async ({ runs, scale, say }) => {
    say('making ten years of hourly readings and analysing them');
    const unit = await tenYearUnit(scale);
    const plant = await servePlant(unit.url, {
      CLEANBY_NOW: new Date((unit.lastDay + 1) * DAY_MS).toISOString(),
    });
    try {
      const rows = await serverRows(plant, unit, { runs, say });
      return [...rows, ...(await browserRows(plant, unit, { runs, say }))].map((row) => ({
        ...row,
        memory: plant.memory(),
      }));
    } finally {
      await plant.stop();
      unit.remove();
    }
  },
};

type Measuring = { runs: number; say(line: string): void };
const EVERY_READING = 'every reading of the temperatures alone, unreduced';

function queryOf({ lastDay }: TenYearUnit, days: number | null): string {
  return days === null ? 'period=all' : `from=${isoDay(lastDay - days + 1)}&to=${isoDay(lastDay)}`;
}

const charts = ({ tag }: TenYearUnit) => `/api/units/${tag}/charts`;

async function serverRows(
  plant: ServedPlant,
  unit: TenYearUnit,
  { runs, say }: Measuring,
): Promise<BenchRow[]> {
  const ask = async (path: string) => {
    const answer = await fetch(`${plant.address}${path}`, { headers: plant.person });
    if (!answer.ok) throw new Error(`${path} answered ${answer.status}`);
    await answer.arrayBuffer();
  };
  const rows: BenchRow[] = [];
  say('asking the server');
  // Whoever opens a unit comes from the fleet.
  await ask('/');
  const cold = await timed(() => ask(`/units/${unit.tag}?period=all`));
  rows.push(alone('page, ten years, the first time', cold, MOST_FIRST));
  const every = `${charts(unit)}?period=all&columns=all&figure=temperatures`;
  for (const [name, days] of SPANS) {
    const query = queryOf(unit, days);
    const times = { page: [] as number[], charts: [] as number[], peer: [] as number[] };
    for (let run = 0; run <= runs; run++) {
      times.page.push(await timed(() => ask(`/units/${unit.tag}?${query}`)));
      times.charts.push(await timed(() => ask(`${charts(unit)}?${query}`)));
      times.peer.push(await timed(() => ask(every)));
    }
    rows.push(alone(`page, ${name}, warm`, median(times.page), null));
    rows.push(against(`charts, ${name}, warm`, median(times.charts), median(times.peer), MOST_SERVER));
  }
  return rows;
}

async function browserRows(
  plant: ServedPlant,
  unit: TenYearUnit,
  { runs, say }: Measuring,
): Promise<BenchRow[]> {
  say('looking in a browser');
  const browser = await chromium.launch({ executablePath: await chromiumPath(), args: CHROMIUM_ARGUMENTS });
  try {
    const context = await browser.newContext({
      locale: 'en-GB',
      viewport: { width: 1440, height: 900 },
      extraHTTPHeaders: {},
    });
    const [cookie] = [plant.person.cookie!];
    await context.addCookies(
      cookie.split('; ').map((pair) => {
        const [name, ...value] = pair.split('=');
        return { name: name!, value: value.join('='), url: plant.address };
      }),
    );
    const page = await context.newPage();
    const first: number[] = [];
    for (let run = 0; run < runs; run++) first.push(await firstPicture(page, plant, unit));
    const rows = [alone('first picture, ten years', median(first), MOST_FIRST)];
    const times = { ours: [] as number[], peer: [] as number[] };
    const steps = ['1 y', '30 d', 'all'];
    const byStep = new Map(steps.map((step) => [step, [] as number[]]));
    for (let run = 0; run < runs; run++) {
      for (const step of steps) byStep.get(step)!.push(await clickToDrawn(page, step));
      times.peer.push(
        await drawEveryReading(page, `${charts(unit)}?period=all&columns=all&figure=temperatures`),
      );
    }
    for (const step of steps)
      rows.push(
        against(
          `click on “${step}” to drawn, eight charts`,
          median(byStep.get(step)!),
          median(times.peer),
          MOST_CLICK,
        ),
      );
    return rows;
  } finally {
    await browser.close();
  }
}

async function firstPicture(page: Page, plant: ServedPlant, unit: TenYearUnit): Promise<number> {
  await page.goto('about:blank');
  await page.goto(`${plant.address}/units/${unit.tag}?period=all`, { waitUntil: 'networkidle' });
  return page.evaluate(
    () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN,
  );
}

/** From a click on a period to the frame in which its picture stands [ms]. */
async function clickToDrawn(page: Page, label: string): Promise<number> {
  // The page has settled on the look before.
  await page.waitForLoadState('networkidle');
  return page.evaluate(async (wanted) => {
    const status = document.querySelector('#charts [role=status]')!;
    const links = [...document.querySelectorAll<HTMLElement>('#charts nav[aria-label="Period"] a')];
    const link = links.find(({ textContent }) => textContent === wanted)!;
    const drawn = new Promise<void>((resolve) => {
      let wasLooking = false;
      const observer = new MutationObserver(() => {
        if (status.textContent!.startsWith('Looking')) wasLooking = true;
        else if (wasLooking) {
          observer.disconnect();
          requestAnimationFrame(() => requestAnimationFrame(() => resolve()));
        }
      });
      observer.observe(status, { childList: true, characterData: true, subtree: true });
    });
    const began = performance.now();
    link.click();
    await drawn;
    const took = performance.now() - began;
    // The rest of the page follows after a while; the next look begins when that has come.
    await new Promise((resolve) => setTimeout(resolve, 1500));
    return took;
  }, label);
}

/** The peer: every reading sent, and drawn as lines of one picture [ms]. */
async function drawEveryReading(page: Page, path: string): Promise<number> {
  return page.evaluate(async (address) => {
    const began = performance.now();
    const answer = (await (await fetch(address)).json()) as {
      parts: unknown[];
      charts: { common: { time: number }; view: { columns: { values: (number | null)[] }[] } }[];
    };
    const { common, view } = answer.charts[0]!;
    const time = answer.parts[common.time] as number[];
    const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
    svg.setAttribute('width', '1100');
    svg.setAttribute('height', '180');
    const [from, to] = [time[0]!, time.at(-1)!];
    for (const { values } of view.columns) {
      const points = values.map((value, row) =>
        value === null
          ? ''
          : `${row === 0 || values[row - 1] === null ? 'M' : 'L'}${(((time[row]! - from) / (to - from)) * 1100).toFixed(1)},${(180 - value).toFixed(1)}`,
      );
      const path = document.createElementNS('http://www.w3.org/2000/svg', 'path');
      path.setAttribute('d', points.join(''));
      path.setAttribute('stroke', 'black');
      path.setAttribute('fill', 'none');
      svg.append(path);
    }
    document.querySelector('#charts')!.prepend(svg);
    await new Promise<void>((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve())));
    const took = performance.now() - began;
    svg.remove();
    return took;
  }, path);
}

function alone(what: string, ours: number, most: number | null): BenchRow {
  const limit = most === null ? null : { most };
  return { what, ours, peer: null, peerName: null, unit: 'ms', ratio: null, limit, memory: null };
}

/** A time with a limit of its own beside the peer's: on another machine the ratio still says something. */
function against(what: string, ours: number, peer: number, most: number): BenchRow {
  return {
    what,
    ours,
    peer,
    peerName: EVERY_READING,
    unit: 'ms',
    ratio: null,
    limit: { most },
    memory: null,
  };
}
