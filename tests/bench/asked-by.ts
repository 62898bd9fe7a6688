import { createRequire } from 'node:module';
import { setTimeout as wait } from 'node:timers/promises';
import { percentile } from './measure';
import type { ServedPlant } from './served-plant';

/** How an address answered many readers at once [ms]. */
export type Answers = { p50: number; p95: number; p99: number; perSecond: number };

/** What is used of autocannon, which brings no types. */
type Client = {
  on(event: 'response', act: (status: number, bytes: number, ms: number) => void): void;
};
type Autocannon = (options: {
  url: string;
  connections: number;
  duration: number;
  requests: { setupRequest(request: object): object }[];
  setupClient(client: Client): void;
}) => Promise<{ requests: { average: number }; non2xx: number; errors: number }>;

const autocannon = createRequire(import.meta.url)('autocannon') as Autocannon;
const SECONDS = 10;

/** How readers ask: `path` of the n-th request, and how long each looks at an answer; without a pause where left out [ms]. */
export type Asking = { path: (request: number) => string; readers: number; lookMs?: number };

/** Readers ask over and over for some seconds, each by a browser of their own; every answer must be one. */
export function askedBy(plant: ServedPlant, { lookMs, ...asking }: Asking): Promise<Answers> {
  return lookMs === undefined ? askedInHaste(plant, asking) : askedAtLeisure(plant, { ...asking, lookMs });
}

async function askedInHaste(plant: ServedPlant, { path, readers }: Asking): Promise<Answers> {
  const times: number[] = [];
  let count = 0;
  const { requests, non2xx, errors } = await autocannon({
    url: plant.address,
    connections: readers,
    duration: SECONDS,
    requests: [
      {
        setupRequest: (given) => {
          const number = count++;
          return { ...given, path: path(number), headers: headersOf(plant, number % readers) };
        },
      },
    ],
    setupClient: (client) => client.on('response', (_status, _bytes, ms) => void times.push(ms)),
  });
  if (non2xx > 0 || errors > 0) throw new Error(`${path(0)}: ${non2xx} refusals and ${errors} errors`);
  return { ...quantilesOf(times), perSecond: requests.average };
}

/** Not with the client of the other: at a stated rate it lets all connections ask at the same instant. */
async function askedAtLeisure(
  plant: ServedPlant,
  { path, readers, lookMs }: Required<Asking>,
): Promise<Answers> {
  const times: number[] = [];
  const until = performance.now() + SECONDS * 1000;
  let count = 0;
  const read = async (reader: number) => {
    await wait((reader / readers) * lookMs);
    while (performance.now() < until) {
      const began = performance.now();
      const answer = await fetch(plant.address + path(count++), { headers: headersOf(plant, reader) });
      await answer.text();
      if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
      times.push(performance.now() - began);
      await wait(lookMs);
    }
  };
  await Promise.all(Array.from({ length: readers }, (_, reader) => read(reader)));
  return { ...quantilesOf(times), perSecond: times.length / SECONDS };
}

/** Two browsers never say quite the same: nobody is given what was made for another. */
function headersOf(plant: ServedPlant, reader: number): Record<string, string> {
  return { ...plant.person, 'user-agent': `Bench, reader ${reader}` };
}

function quantilesOf(times: readonly number[]): Omit<Answers, 'perSecond'> {
  const [p50, p95, p99] = [0.5, 0.95, 0.99].map((share) => percentile(times, share));
  return { p50: p50!, p95: p95!, p99: p99! };
}
